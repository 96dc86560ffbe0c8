export type HintId = 'begin' | 'points' | 'reading' | 'limits';

/** The four hints of a first start, in the order of the work. */
export const HINTS: readonly { readonly id: HintId; readonly text: string }[] = [
  {
    id: 'begin',
    text: 'A sample to try: an invented film, nobody’s hand. Under Axes, press Place and put the points on the film; or press Trace and tap the bone four times.',
  },
  {
    id: 'points',
    text: 'Drag bare film to move it; wheel or pinch to magnify. The inset shows where a point will land, and any point can be moved later.',
  },
  {
    id: 'reading',
    text: 'The angle stands with its 95 % interval. Open its line to see where the ± comes from; the “?” beside a line says what it is.',
  },
  {
    id: 'limits',
    text: 'Below, the reading is held against a limit set, with cautions. Answer the examination: an angle alone decides nothing.',
  },
];

/** What of the work has been done, as far as the hints go by it. */
export interface Progress {
  /** Something has been placed, or is being placed or traced. */
  readonly begun: boolean;
  readonly measured: boolean;
  readonly examined: boolean;
}

/**
 * The hint that is due: the first whose moment has come and not gone, and which was not put away.
 *
 * @param putAway - Hints the user has closed.
 */
export function hintDue(
  { begun, measured, examined }: Progress,
  putAway: ReadonlySet<HintId>,
): HintId | null {
  const due: Readonly<Record<HintId, boolean>> = {
    begin: !begun && !measured,
    points: begun && !measured,
    reading: measured,
    limits: measured && !examined,
  };
  return HINTS.find(({ id }) => due[id] && !putAway.has(id))?.id ?? null;
}
