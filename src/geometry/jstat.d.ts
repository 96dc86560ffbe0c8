/** jstat ships no types. Only what this layer uses is declared. */
declare module 'jstat' {
  interface Distribution {
    cdf(x: number, ...parameters: number[]): number;
    inv(probability: number, ...parameters: number[]): number;
  }
  const jStat: {
    readonly studentt: Distribution;
    readonly noncentralt: Pick<Distribution, 'cdf'>;
    readonly normal: Distribution;
    readonly centralF: Distribution;
    readonly chisquare: Distribution;
  };
  export default jStat;
}
