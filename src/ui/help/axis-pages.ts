import type { HelpPage } from './page.ts';
import { BHANDARI, LAMRASKI, SLETTEN } from './sources.ts';

/** How an axis of each construction is drawn. */
export const AXIS_PAGES: readonly HelpPage[] = [
  {
    id: 'canal',
    doc: 'axis-canal',
    kind: 'axis',
    title: 'Axis by the canal',
    also: 'medullary, mid-shaft',
    about:
      'At two or more levels of the fragment, a point on each inner cortex. The axis is the straight line that runs closest to the mid-points of the canal.',
    formula:
      'Half-way between the two inner cortices at each level, then the best straight line through these.',
    reliability: { text: 'Canal axes on a true lateral film: ICC 0.53 to 0.81.', source: SLETTEN },
    leavesOut: 'The canal widens towards base and head, and not evenly on both sides.',
  },
  {
    id: 'cortex-pair',
    doc: 'axis-cortex-pair',
    kind: 'axis',
    title: 'Axis by the outer cortices',
    about:
      'At two or more levels of the fragment, a point on each outer cortex. The axis is the straight line that runs closest to the mid-points.',
    formula:
      'Half-way between the two outer cortices at each level, then the best straight line through these.',
    reliability: {
      text: 'Not found by itself; all methods together in 30 cadaver fractures: ICC 0.76 to 1.00.',
      source: LAMRASKI,
    },
    leavesOut: 'A flared base or neck within the levels tilts the line, and the bow of the bone stays in it.',
  },
  {
    id: 'dorsal-cortex',
    doc: 'axis-dorsal-cortex',
    kind: 'axis',
    title: 'Axis by the dorsal cortex',
    about:
      'Two or more points along the dorsal cortex of the fragment. The axis is the straight line that runs closest to them.',
    formula: 'The best straight line through the points themselves.',
    reliability: {
      text: 'Normal angle of whole bones on a true lateral, mean (SD): index 13 (4.73), middle 10 (5.28), ring 11 (4.45), small 12 (5.11) degrees.',
      source: BHANDARI,
    },
    leavesOut: 'The dorsal cortex is bowed, so the angle depends on which stretch of it is taken.',
  },
  {
    id: 'head',
    doc: 'axis-head',
    kind: 'axis',
    title: 'Axis by the head circle',
    about:
      'For the short distal fragment of a neck fracture: three or more points on the rim of the head give a circle, and the axis runs from the middle of the broken end to its centre.',
    formula:
      'The circle with the least squared distances from the rim points, then the line from the broken end to its centre.',
    reliability: {
      text: 'Shaft axis against the line from the head’s centre to the fracture, 30 cadaver fractures: validity ICC 0.70 to 0.79.',
      source: LAMRASKI,
    },
    leavesOut:
      'The head is not a perfect ball, and the broken end of an impacted fracture hides behind the shaft.',
  },
  {
    id: 'free',
    doc: 'axis-free',
    kind: 'axis',
    title: 'Axis by a free line',
    about:
      'A straight line from one placed point to the other; you decide what the two points mean. Prefer a named construction where a limit or a normal is compared with.',
    formula: 'The direction from the first point to the second.',
    reliability: {
      text: 'None for free points. A goniometer on carpal films, a neighbouring task: SD 5.2°.',
      source: 'Garcia-Elias et al., J Hand Surg Am 1989;14A:1017–1021',
    },
    leavesOut: 'Everything about where the axis of a fragment lies.',
  },
];
