import type { FragmentName } from './request.ts';
import type { Doubt, TraceFailure } from './traced.ts';

const TAP_NAMES = {
  base: 'the base',
  proximalEnd: 'the broken end of the proximal fragment',
  distalEnd: 'the broken end of the distal fragment',
  headEnd: 'the head',
} as const;

const tenths = (value: number): string => value.toFixed(1);
const whole = (value: number): string => value.toFixed(0);

const joint = (fragment: FragmentName): string => (fragment === 'proximal' ? 'base' : 'head');

/** Says to a person why there is no trace, and what to do next. */
export function traceFailureSentence(failure: TraceFailure): string {
  switch (failure.kind) {
    case 'tap-off-film':
      return `The tap on ${TAP_NAMES[failure.tap]} lies beside the film. Tap it on the bone.`;
    case 'taps-too-close':
      return (
        `The two taps of the ${failure.fragment} fragment lie ${tenths(failure.lengthMm)} mm apart; tracing needs ` +
        `${whole(failure.neededMm)} mm. Tap the ${joint(failure.fragment)} and the broken end anew, or place the axis by hand.`
      );
    case 'film-too-coarse':
      return (
        `One pixel of this film covers ${failure.pixelMm.toFixed(2)} mm, and tracing needs ${failure.neededMm.toFixed(2)} mm or less. ` +
        'Place the axes by hand, or open the original film.'
      );
    case 'blank-film':
      return `There is no picture round the ${failure.fragment} fragment. Check the taps.`;
    case 'no-outlines':
      return (
        `No outlines were found for the ${failure.fragment} fragment. Check the taps, give a tap on either side of ` +
        'the bone at two levels, or place the axis by hand.'
      );
    case 'correction-out-of-reach':
      return (
        `Corrected point ${failure.index + 1} lies ${tenths(failure.distanceMm)} mm beyond what is traced of its ` +
        'fragment. Move it nearer, or place the axis by hand.'
      );
    case 'correction-not-followed':
      return (
        `No outline was found that runs through corrected point ${failure.index + 1}. Move it to the edge of the bone, ` +
        'apart from other corrected points, or place the axis by hand.'
      );
  }
}

/** Says to a person why a trace wants a look. */
export function doubtSentence(doubt: Doubt): string {
  switch (doubt.kind) {
    case 'parallel-outlines':
      return (
        `Another outline runs along the ${doubt.fragment} fragment; followed, it would give ` +
        `${whole(Math.abs(doubt.otherTurnDegrees))}° (belief ${whole(100 * doubt.share)} %). Drag a point, or tap both edges.`
      );
    case 'short-lever':
      return (
        `The ${doubt.fragment} axis rests on points only ${tenths(doubt.leverMm)} mm apart ` +
        `(${whole(doubt.wantedMm)} mm are wanted), so small errors turn it much.`
      );
    case 'end-on':
      return (
        `The ${doubt.fragment} fragment points towards the beam: its broken end lies ${tenths(doubt.leverMm)} mm from ` +
        `the middle of a head of ${tenths(doubt.headRadiusMm)} mm radius. Another view shows its axis better.`
      );
    case 'weak-outline':
      return `One outline of the ${doubt.fragment} fragment hardly shows. Look whether the line follows the bone.`;
    case 'grey-scale-cut-off':
      return (
        `${whole(100 * doubt.share)} % of the picture round the bone is plain black or white, where outlines are lost. ` +
        'The original film shows more than a screenshot.'
      );
    case 'scale-guessed':
      return 'The film has no scale; the tracer judged sizes by the length of the bone.';
    case 'negative':
      return doubt.plain
        ? 'Bone looks darker than flesh here, so this film was traced as a negative. Look whether the lines follow bone.'
        : 'It is hard to tell whether bone is dark or bright here; this film was traced as a negative. Look whether the lines follow bone.';
    case 'wide-interval':
      return (
        `The angle is known to ±${tenths(doubt.halfWidthDegrees)}° only; more than ±${tenths(doubt.limitDegrees)}° is ` +
        'shown as not sure.'
      );
  }
}
