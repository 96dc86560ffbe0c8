import type { HelpPage } from './page.ts';

/** What stands beside the readings: the interval, the scale, repeats. */
export const BESIDE_PAGES: readonly HelpPage[] = [
  {
    id: 'uncertainty',
    doc: 'uncertainty',
    kind: 'beside',
    title: 'The interval',
    also: 'how sure, plus or minus, confidence, error, accuracy, precision',
    about:
      'Each reading stands with the half-width of its 95 % interval. It follows from how exactly points are placed (0.5 mm until your own repeats say better), the scale, the normal and the turn of the hand; open a reading to see each source and its share.',
    formula:
      'Each source’s effect on the reading, added as squares, times the factor of the t distribution for 95 %.',
    reliability: {
      text: 'Checked by simulation of every reading against the stated 95 %; an axis of 5 placing errors is refused, below 20 it is flagged.',
      source: 'JCGM 100:2008 and JCGM 101:2008',
    },
    leavesOut: 'Whether the line was put where its definition says.',
  },
  {
    id: 'scale',
    doc: 'scale',
    kind: 'beside',
    title: 'Scale',
    also: 'millimetres, calibration, magnification, size',
    about:
      'Millimetres per pixel: from the file, with the plane it holds in, or from an object of known size on the film. Angles need no scale, only that rows and columns are spaced as stated.',
    formula: 'Known size divided by the size in pixels.',
    reliability: {
      text: 'At the detector a hand is shown 1 to 3 % larger than it is; at 0.5 mm a ball of 24 mm gives the scale to 2.1 %.',
      source: 'by calculation, from teaching pages on magnification',
    },
    leavesOut: 'The scale holds at the height of the object, not above or below it.',
  },
  {
    id: 'agreement',
    doc: 'agreement',
    kind: 'beside',
    title: 'Repeats and agreement',
    also: 'change, progression, loss of reduction, observers, reliability',
    about:
      'How far repeats by one person scatter (within-subject SD), how far two people differ (limits of agreement), and how much of the spread lies between patients (ICC). A change between two readings counts only beyond the smallest detectable change.',
    formula:
      'Repeatability is 2.77 within-subject SDs; the smallest detectable change 1.96 times the root of both squared uncertainties.',
    reliability: {
      text: 'The table in print: ICC 0.17, 0.29 and 0.71 for the three forms of a single reading.',
      source: 'Shrout and Fleiss, Psychol Bull 1979;86:420–428',
    },
    leavesOut: 'Agreement of two observers says nothing of either being right.',
  },
];
