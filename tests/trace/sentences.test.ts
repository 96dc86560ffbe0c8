import { describe, expect, it } from 'vitest';
import { doubtSentence, traceFailureSentence } from '../../src/trace/sentences.ts';
import type { Doubt, TraceFailure } from '../../src/trace/traced.ts';

/** One of every kind: the compiler refuses a list that leaves one out. */
const FAILURES = {
  'tap-off-film': { kind: 'tap-off-film', tap: 'headEnd' },
  'taps-too-close': { kind: 'taps-too-close', fragment: 'distal', lengthMm: 4.25, neededMm: 8 },
  'film-too-coarse': { kind: 'film-too-coarse', pixelMm: 1.07, neededMm: 0.7 },
  'blank-film': { kind: 'blank-film', fragment: 'proximal' },
  'no-outlines': {
    kind: 'no-outlines',
    fragment: 'proximal',
    measure: 'coherence',
    found: 0.05,
    needed: 0.12,
  },
  'correction-not-followed': { kind: 'correction-not-followed', index: 0 },
  'correction-out-of-reach': { kind: 'correction-out-of-reach', index: 1, distanceMm: 7.3 },
} as const satisfies { [Kind in TraceFailure['kind']]: Extract<TraceFailure, { kind: Kind }> };

const DOUBTS = {
  'parallel-outlines': {
    kind: 'parallel-outlines',
    fragment: 'distal',
    otherTurnDegrees: -31.4,
    share: 0.22,
  },
  'short-lever': { kind: 'short-lever', fragment: 'distal', leverMm: 6.1, wantedMm: 8 },
  'end-on': { kind: 'end-on', fragment: 'distal', leverMm: 4.2, headRadiusMm: 6.5 },
  'weak-outline': { kind: 'weak-outline', fragment: 'proximal', side: 'one', strength: 0.4, wanted: 0.5 },
  'grey-scale-cut-off': { kind: 'grey-scale-cut-off', share: 0.62 },
  'scale-guessed': { kind: 'scale-guessed', mmPerColumn: 0.36 },
  negative: { kind: 'negative', plain: false },
  'wide-interval': { kind: 'wide-interval', halfWidthDegrees: 9.4, limitDegrees: 6 },
} as const satisfies { [Kind in Doubt['kind']]: Extract<Doubt, { kind: Kind }> };

describe('sentences', () => {
  it.each(Object.values(FAILURES))('say the failure $kind and what to do', (failure) => {
    const sentence = traceFailureSentence(failure);
    expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(sentence).toMatch(/\b(tap|place|open|check|move)\b/i);
  });

  it.each(Object.values(DOUBTS))('say the doubt $kind', (doubt) => {
    expect(doubtSentence(doubt)).toMatch(/^[A-Z0-9].*\.$/);
  });

  it('carry the numbers', () => {
    expect(traceFailureSentence(FAILURES['taps-too-close'])).toContain('4.3 mm');
    expect(traceFailureSentence(FAILURES['film-too-coarse'])).toContain('1.07 mm');
    expect(traceFailureSentence(FAILURES['correction-out-of-reach'])).toContain('point 2');
    expect(doubtSentence(DOUBTS['parallel-outlines'])).toContain('31°');
    expect(doubtSentence(DOUBTS['wide-interval'])).toContain('±9.4°');
  });
});
