/** What leaves of a case of three films and seven limit sets, as much as goes on one page: snapshot and record. */
import { encode } from 'fast-png';
import { recordId } from '../../src/case/document.ts';
import { recordPdf } from '../../src/record/pdf/record-pdf.ts';
import { planSnapshot } from '../../src/record/snapshot/plan.ts';
import { snapshotSvg } from '../../src/record/snapshot/svg.ts';
import { succeeded } from '../case/samples.ts';
import { FACES } from '../record/pdf/faces.ts';
import { assessed, largeCase } from '../record/sample.ts';
import { race } from './harness/lines.ts';

const document = largeCase();
const assessment = assessed(document);
const films = ['film-1', 'film-2', 'film-3'].map((id) => ({ id: recordId(id), area: null }));
const choice = { films, marks: true, labels: true, words: true, ground: 'paper' } as const;
/** Half an em per letter: the browser measures quicker than this bench lays out. */
const measure = (text: string, _face: string, size: number) => text.length * size * 0.5;
const plan = () => succeeded(planSnapshot(document, assessment, choice, measure));

/** A film of 1500 × 2000 pixels as it is displayed. */
const grey = Uint8Array.from({ length: 1500 * 2000 }, (_, at) => (at * 31) >> 4);
const pictures = new Map(films.map(({ id }) => [id, { columns: 1500, rows: 2000, grey }]));
const png = () => encode({ width: 1500, height: 2000, data: grey, channels: 1, depth: 8 });

await race({
  against: 'a structuredClone of the case and its assessment',
  baseline: () => structuredClone({ document, assessment }),
  runs: { 'snapshot of three films, laid out': plan },
  rounds: 15,
});

const planned = plan();
await race({
  against: 'the three pictures as PNG',
  baseline: () => films.forEach(png),
  runs: {
    'the same snapshot as SVG, pictures of 1500 × 2000 pixels': () => snapshotSvg(planned, pictures, measure),
  },
});

const picture = { png: png(), filmNumbers: [1] };
const common = { document, assessment, faces: FACES, label: null, writtenOn: null, softwareVersion: '0.1.0' };
const written = async (input: Parameters<typeof recordPdf>[0]) => {
  if (!(await recordPdf(input)).ok) throw new Error('The record of the bench was not written.');
};
await race({
  against: 'its picture of 1500 × 2000 pixels as PNG',
  baseline: png,
  runs: {
    'record of the case as PDF, with that picture': () => written({ ...common, picture }),
    'record of the case as PDF, without a picture': () => written({ ...common, picture: null }),
  },
});
