/** One definition as the panel and `docs/measurements/` show it. */
export interface HelpPage {
  readonly id: HelpId;
  /** Name of its page in docs/measurements/, without ending; the page's section "In short" is this text. */
  readonly doc: string;
  readonly kind: 'axis' | 'reading' | 'beside';
  readonly title: string;
  /** Other words by which it may be looked for. */
  readonly also?: string;
  /** What it is and how it is done, as one paragraph. */
  readonly about: string;
  /** The formula in words, as one sentence. */
  readonly formula: string;
  /** What has been published about how well it repeats or agrees, with whose word that is. */
  readonly reliability: { readonly text: string; readonly source: string };
  /** What the number and its interval leave out, as one sentence. */
  readonly leavesOut: string;
}

export type HelpId =
  | 'free'
  | 'cortex-pair'
  | 'canal'
  | 'dorsal-cortex'
  | 'head'
  | 'angulation'
  | 'deformity'
  | 'bend-place'
  | 'length'
  | 'shortening'
  | 'translation'
  | 'joint-surface'
  | 'spatial-angle'
  | 'fist-photograph'
  | 'uncertainty'
  | 'scale'
  | 'agreement';
