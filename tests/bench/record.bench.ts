import { encode } from 'fast-png';
import { bench, describe } from 'vitest';
import { recordId } from '../../src/case/document.ts';
import { recordPdf } from '../../src/record/pdf/record-pdf.ts';
import { planSnapshot } from '../../src/record/snapshot/plan.ts';
import { snapshotSvg } from '../../src/record/snapshot/svg.ts';
import { succeeded } from '../case/samples.ts';
import { FACES } from '../record/pdf/faces.ts';
import { assessed, largeCase } from '../record/sample.ts';

/** Three films with marks, seven limit sets: as much as goes on one page. */
const document = largeCase();
const assessment = assessed(document);
const films = ['film-1', 'film-2', 'film-3'].map((id) => ({ id: recordId(id), area: null }));
const choice = { films, marks: true, labels: true, words: true, ground: 'paper' } as const;
/** Half an em per letter: the browser measures quicker than this bench lays out. */
const measure = (text: string, _face: string, size: number) => text.length * size * 0.5;

/** A film of 1500 × 2000 pixels as it is displayed. */
const grey = Uint8Array.from({ length: 1500 * 2000 }, (_, at) => (at * 31) >> 4);
const picture = { columns: 1500, rows: 2000, grey };
const pictures = new Map(films.map(({ id }) => [id, picture]));

describe('a snapshot of three films', () => {
  bench('baseline: a structuredClone of the case and its assessment', () => {
    structuredClone({ document, assessment });
  });
  bench('laid out', () => {
    planSnapshot(document, assessment, choice, measure);
  });
});

describe('the same snapshot as SVG, 1500 × 2000 pixels each', () => {
  const plan = succeeded(planSnapshot(document, assessment, choice, measure));
  bench('baseline: the three pictures as PNG', () => {
    for (const { id } of films) {
      encode({ width: 1500, height: 2000, data: pictures.get(id)!.grey, channels: 1, depth: 8 });
    }
  });
  bench('written', () => {
    snapshotSvg(plan, pictures, measure);
  });
});

describe('the record of the same case as PDF, with a picture of 1500 × 2000 pixels', () => {
  const png = encode({ width: 1500, height: 2000, data: grey, channels: 1, depth: 8 });
  const input = {
    document,
    assessment,
    faces: FACES,
    picture: { png, filmNumber: 1 },
    label: null,
    writtenOn: null,
    softwareVersion: '0.1.0',
  };
  bench('baseline: that picture as PNG', () => {
    encode({ width: 1500, height: 2000, data: grey, channels: 1, depth: 8 });
  });
  bench('written', async () => {
    await recordPdf(input);
  });
});
