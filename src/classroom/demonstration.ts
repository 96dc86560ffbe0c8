import type { Assessment } from '../case/assessment.ts';
import type { CaseDocument, MarkRecord, MarkRole, RecordId } from '../case/document.ts';
import { markedFilm } from '../case/film-marks.ts';
import { injuryOf } from '../case/fixed-records.ts';
import { readingInWords } from '../case/format.ts';
import type { KnownReading } from '../case/reading.ts';
import { CONSTRUCTION_FACTS } from '../case/roles.ts';
import { pointsOf } from '../case/shape-points.ts';
import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import { VIEW_WORDS } from '../tolerance/limit-method.ts';
import { rayWords } from './exercise.ts';

/** One step of a demonstration: what is on the film, and what is said of it. */
export interface DemoStep {
  readonly id: string;
  readonly title: string;
  /** One to three sentences in large type. */
  readonly words: string;
  /** Marks that are drawn. */
  readonly marks: readonly RecordId[];
  readonly showAngle: boolean;
  /** Whole film, or the part round the bone. */
  readonly part: FilmBox | null;
}

/** A part of a film in whole pixels. */
export interface FilmBox {
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
}

/** Round the marks, as a share of their larger extent. */
const MARGIN = 0.55;

/** What is said of each construction while it is drawn. */
const SAID: Readonly<Record<MarkRecord['shape']['construction'], string>> = {
  free: 'Two points along the middle of the fragment, as far apart as can be.',
  'cortex-pair':
    'At two levels a point on each outer cortex. The axis runs through the middles, and the levels lie as far apart as the bone allows.',
  canal:
    'At two levels a point on each wall of the canal. The axis runs through the middles, and the levels lie as far apart as the bone allows.',
  'dorsal-cortex': 'Points along the dorsal cortex. This line has a normal of its own.',
  head: 'Three points on the rim fix the circle of the head. The axis runs from the middle of the broken end to its centre.',
  circle: 'Points on the rim of a round object.',
  point: 'A tap on that side gives the angle its sign.',
  segment: 'From one end to the other.',
};

const ORDER: readonly MarkRole[] = ['proximal-axis', 'distal-axis', 'dorsal-side', 'radial-side'];
const TITLES: Readonly<Partial<Record<MarkRole, string>>> = {
  'proximal-axis': 'The axis of the near fragment',
  'distal-axis': 'The axis of the far fragment',
  'dorsal-side': 'The back of the hand',
  'radial-side': 'The side of the thumb',
};

/**
 * The steps of a measurement that has been made: the film, each axis as it is drawn, the angle, what was normal, the
 * limits, and what no film shows. Nothing in it names a person, a file or a date.
 */
export function demonstrationSteps(
  document: CaseDocument,
  assessment: Assessment,
  filmId: RecordId,
): readonly DemoStep[] {
  const marked = markedFilm(document, filmId);
  if (marked === null) return [];
  const { film } = marked;
  const injury = injuryOf(document);
  const bone = injury.ray === null ? 'a metacarpal' : `the metacarpal of the ${rayWords(injury.ray)}`;
  const marks = ORDER.flatMap((role) => marked.marks[role] ?? []);
  const part = boxRound(
    marks
      .filter(({ role }) => role === 'proximal-axis' || role === 'distal-axis')
      .flatMap(({ shape }) => pointsOf(shape)),
    film,
  );
  const steps: DemoStep[] = [
    {
      id: 'film',
      title: film.view === null ? 'The film' : `The film, ${VIEW_WORDS[film.view]} view`,
      words: `${film.view === null ? 'First the view: which way does the hand lie?' : `The view comes first: this is ${film.view === 'oblique' ? 'an' : 'a'} ${VIEW_WORDS[film.view]}.`} We look for ${bone}${injury.region === null ? '' : `, broken at the ${injury.region}`}.`,
      marks: [],
      showAngle: false,
      part: null,
    },
    {
      id: 'bone',
      title: 'The bone',
      words: 'Where does it stand alone? Follow it from there into the overlap.',
      marks: [],
      showAngle: false,
      part,
    },
  ];
  const shown: RecordId[] = [];
  for (const mark of marks) {
    shown.push(mark.id);
    const { construction } = mark.shape;
    steps.push({
      id: mark.role,
      title: TITLES[mark.role] ?? mark.role,
      words:
        construction === 'point'
          ? SAID.point
          : `By the ${CONSTRUCTION_FACTS[construction].name}. ${SAID[construction]}`,
      marks: [...shown],
      showAngle: false,
      part,
    });
  }
  const reading = (quantity: KnownReading['quantity']): KnownReading | null => {
    const found = assessment.readings.find((one) => one.filmId === filmId && one.quantity === quantity);
    return found?.state === 'known' ? found : null;
  };
  const angle = reading('angulation');
  if (angle !== null) {
    const withAll = { marks: shown, showAngle: true, part };
    steps.push({
      id: 'angle',
      title: readingInWords(angle),
      words: `The angle between the two axes${angle.apex === null ? '' : `, ${angle.apex}`}. The ± comes from placing the points: 19 times in 20 the same lines drawn again fall within it. ${angle.leavesOut}`,
      ...withAll,
    });
    const [normal, deformity] = [reading('normal'), reading('deformity')];
    if (normal !== null && deformity !== null) {
      steps.push({
        id: 'deformity',
        title: `Deformity ${readingInWords(deformity)}`,
        words: `A sound bone is bent too: ${readingInWords(normal)} are taken off as its normal.${normal.basis === null ? '' : ` ${sentence(normal.basis)}`}`,
        ...withAll,
      });
    }
    const comparison = assessment.comparisons.find(
      ({ readingId }) => readingId === angle.id || readingId === deformity?.id,
    );
    if (comparison !== undefined) {
      steps.push({
        id: 'limits',
        title: 'Against the limits',
        words: `${sentence(comparison.words)} Limit set: ${comparison.limitSet.title}. Sources disagree; local protocol and the clinician in charge decide.`,
        ...withAll,
      });
    }
  }
  steps.push({
    id: 'not-on-the-film',
    title: 'What the film does not show',
    words:
      'Rotation of the finger, a wound over the knuckle, circulation and feeling. They are looked for on the hand, whatever the angle is.',
    marks: shown,
    showAngle: angle !== null,
    part: null,
  });
  return steps;
}

const sentence = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

/** The part of a film round some points, as wide as it is high where the film allows; null without points. */
export function boxRound(
  points: readonly FilmPoint[],
  film: { readonly columns: number; readonly rows: number },
): FilmBox | null {
  if (points.length === 0) return null;
  const columns = points.map(({ column }) => column);
  const rows = points.map(({ row }) => row);
  const [left, right, top, bottom] = [
    Math.min(...columns),
    Math.max(...columns),
    Math.min(...rows),
    Math.max(...rows),
  ];
  const half = Math.max(right - left, bottom - top) * (0.5 + MARGIN);
  const middle = filmPoint((left + right) / 2, (top + bottom) / 2);
  const column = Math.max(0, Math.floor(middle.column - half));
  const row = Math.max(0, Math.floor(middle.row - half));
  return {
    column,
    row,
    columns: Math.max(1, Math.min(film.columns - column, Math.ceil(2 * half))),
    rows: Math.max(1, Math.min(film.rows - row, Math.ceil(2 * half))),
  };
}

/** The document with only the marks of a step on a film, for drawing and reading off what that step shows. */
export function documentOfStep(document: CaseDocument, filmId: RecordId, step: DemoStep): CaseDocument {
  const records = Object.entries(document.records).filter(
    ([id, record]) =>
      record.kind !== 'mark' || (record.filmId === filmId && step.marks.includes(id as RecordId)),
  );
  return { ...document, records: Object.fromEntries(records) };
}
