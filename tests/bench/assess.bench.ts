import { assess } from '../../src/case/assess.ts';
import type { CaseDocument, CaseRecord, MarkRecord, MarkShape } from '../../src/case/document.ts';
import { movePoint } from '../../src/case/marks.ts';
import { filmPoint as at } from '../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, injury, mark } from '../case/samples.ts';
import { race } from './harness/lines.ts';

/** Ten films of five marks each: canal, head, side, length and the other side. */
const canal: MarkShape = {
  construction: 'canal',
  levels: [0, 1, 2].map((level) => ({
    one: at(960, 2000 - 150 * level),
    other: at(1040, 2000 - 150 * level),
  })),
};
const head: MarkShape = {
  construction: 'head',
  rim: [at(1000, 1000), at(1050, 960), at(1100, 1000), at(1080, 965)],
  brokenEnd: at(1020, 1300),
};
const side: MarkShape = { construction: 'point', at: at(300, 1500) };
const length: MarkShape = { construction: 'segment', from: at(1000, 2100), to: at(1000, 960) };
const records = Array.from({ length: 10 }, (_, index): readonly CaseRecord[] => {
  const id = `film-${index}`;
  return [
    film(id, {
      day: index,
      hand: index % 3 === 2 ? 'other' : 'injured',
      view: index % 2 === 0 ? 'lateral' : 'pa',
    }),
    mark(`${id}/proximal-axis`, id, 'proximal-axis', canal),
    mark(`${id}/distal-axis`, id, 'distal-axis', head),
    mark(`${id}/dorsal-side`, id, 'dorsal-side', side),
    mark(`${id}/radial-side`, id, 'radial-side', side),
    mark(`${id}/length`, id, 'length', length),
  ];
}).flat();

const document = caseOf(injury(), ...records);
const moving = mark('film-0/distal-axis', 'film-0', 'distal-axis', head);
let step = 0;

/** The document with the head's first rim point a little farther on. */
const nextPreview = (): CaseDocument => {
  step += 1;
  const moved: MarkRecord = { ...moving, shape: movePoint(head, 'rim-1', at(1000 + (step % 40) / 10, 1000)) };
  return { ...document, records: { ...document.records, [moved.id]: moved } };
};

await race({
  against: 'structuredClone of the case',
  baseline: () => structuredClone(document),
  runs: {
    'assessed while a point moves, 10 films and 50 marks': () => assess(nextPreview(), SHIPPED_LIMIT_SETS),
    'assessed after opening, 10 films and 50 marks': () =>
      assess(structuredClone(document), SHIPPED_LIMIT_SETS),
  },
  rounds: 50,
});
