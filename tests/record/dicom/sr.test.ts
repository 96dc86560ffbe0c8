import { beforeAll, describe, expect, it } from 'vitest';
import { axesOnFilm } from '../../../src/case/axes.ts';
import { recordId } from '../../../src/case/document.ts';
import { CODES, type Code, OWN_CODES, QUANTITY_CODES } from '../../../src/record/dicom/codes.ts';
import { srDataset } from '../../../src/record/dicom/sr.ts';
import { knownReadings } from '../../../src/record/readings.ts';
import { withPlainSpaces } from '../../../src/record/words/sentence.ts';
import { caseOf, failed, film, free, mark, succeeded } from '../../case/samples.ts';
import { itNeeds, runTool } from '../../outside-tools.ts';
import {
  assessed,
  INSTANCE_UIDS,
  reportInput,
  SERIES_UID,
  STUDY_UID,
  sampleCase,
  sampleSources,
  sourceBytes,
  sourceOf,
  TRACKING_UIDS,
} from '../sample.ts';
import {
  asFile,
  asJson,
  expectSoundObject,
  firstOf,
  itWithDicomTools,
  type JsonElement,
  written,
} from './checked.ts';

type Item = Record<string, JsonElement>;
const itemsIn = (item: Item, tag: string) => (item[tag]?.Value ?? []) as Item[];
const children = (item: Item) => itemsIn(item, '0040A730');
const conceptOf = (item: Item) => firstOf(itemsIn(item, '0040A043')[0] ?? {}, '00080100');
const codeOf = (item: Item) => firstOf(itemsIn(item, '0040A168')[0] ?? {}, '00080100');
const named = (item: Item, { value }: Code) => children(item).filter((child) => conceptOf(child) === value);
const templateOf = (item: Item) => firstOf(itemsIn(item, '0040A504')[0] ?? {}, '0040DB00');
/** Each child as relationship, value type and concept. */
const outline = (item: Item) =>
  children(item).map((child) => [firstOf(child, '0040A010'), firstOf(child, '0040A040'), conceptOf(child)]);

describe('srDataset', () => {
  let bytes: Uint8Array;
  let read: Item | null = null;
  /** The report as pydicom reads it. */
  const report = (): Item => {
    read ??= asJson(bytes);
    return read;
  };
  beforeAll(() => {
    bytes = written(succeeded(srDataset(reportInput())));
  });

  itWithDicomTools('has no error by dciodvfy', () => expectSoundObject(bytes));

  itNeeds('dsrdump')('is read by dsrdump without complaint', () => {
    asFile(bytes, (path) => {
      const { status, err } = runTool('dsrdump', [path]);
      // The checker of text in UTF-8 warns of every such file (dcmtk 3.6.7).
      expect(err.split('\n').filter((line) => /^[EW]:/.test(line) && !/VR checker/.test(line))).toEqual([]);
      expect(status).toBe(0);
    });
  });

  /** PS3.16 TID 1500, rows 1 to 6, in their order; TID 1001 and 1004 for the observer. */
  itWithDicomTools('follows TID 1500 at its root', () => {
    const root = report();
    expect([firstOf(root, '0040A040'), conceptOf(root), templateOf(root)]).toEqual([
      'CONTAINER',
      '126000',
      '1500',
    ]);
    expect(outline(root)).toEqual([
      ['HAS CONCEPT MOD', 'CODE', '121049'],
      ['HAS OBS CONTEXT', 'CODE', '121005'],
      ['HAS OBS CONTEXT', 'UIDREF', '121012'],
      ['HAS OBS CONTEXT', 'TEXT', '121013'],
      ['HAS OBS CONTEXT', 'TEXT', '121014'],
      ['HAS OBS CONTEXT', 'TEXT', '121015'],
      ['HAS CONCEPT MOD', 'CODE', '121058'],
      ['CONTAINS', 'CONTAINER', '111028'],
      ['CONTAINS', 'CONTAINER', '126010'],
      ['CONTAINS', 'CONTAINER', 'PLACED-MARKS'],
      ...assessed(sampleCase()).cautions.map(() => ['CONTAINS', 'TEXT', '121106']),
    ]);
    expect(codeOf(named(root, CODES.observerType)[0]!)).toBe('121007');
    expect([firstOf(root, '0040A491'), firstOf(root, '0040A493')]).toEqual(['COMPLETE', 'UNVERIFIED']);
  });

  /** PS3.16 TID 1501, rows as dcmtk's dcmsr/cmr/tid1501.h numbers them: 2, 3, 3b, 6 to 8, then 10. */
  itWithDicomTools('follows TID 1501 in each measurement group', () => {
    const root = report();
    const [measurements] = named(root, CODES.imagingMeasurements);
    const groups = named(measurements!, CODES.measurementGroup);
    expect(groups.map(templateOf)).toEqual(['1501', '1501']);
    const [injured, other] = groups;
    expect(outline(injured!)).toEqual([
      ['HAS OBS CONTEXT', 'TEXT', '112039'],
      ['HAS OBS CONTEXT', 'UIDREF', '112040'],
      ['CONTAINS', 'CODE', '121071'],
      ['HAS CONCEPT MOD', 'CODE', '363698007'],
      ['CONTAINS', 'NUM', '1483009'],
      ['CONTAINS', 'NUM', '1483009'],
      ['CONTAINS', 'NUM', '1483009'],
      // The place of the bend, as a share; the length in mm.
      ['CONTAINS', 'NUM', 'SHARE'],
      ['CONTAINS', 'NUM', '410668003'],
      // Beyond one view: shortening, translation in mm, and translation as a share.
      ['CONTAINS', 'NUM', '410668003'],
      ['CONTAINS', 'NUM', '410668003'],
      ['CONTAINS', 'NUM', 'SHARE'],
    ]);
    const siteOf = (group: Item) => {
      const [site] = named(group, CODES.findingSite);
      return [codeOf(site!), ...children(site!).map(codeOf)];
    };
    // A right hand is injured, so the other one is the left; the small finger is the fifth ray.
    expect(siteOf(injured!)).toEqual(['36455000', '24028007', 'MC5']);
    expect(siteOf(other!)).toEqual(['36455000', '7771000', 'MC5']);
    expect(firstOf(named(injured!, CODES.trackingUniqueIdentifier)[0]!, '0040A124')).toBe(
      TRACKING_UIDS.injured,
    );
  });

  itWithDicomTools('gives back through pydicom the numbers of the assessment', () => {
    const root = report();
    const known = knownReadings(assessed(sampleCase()));
    const [measurements] = named(root, CODES.imagingMeasurements);
    const numbers = children(measurements!).flatMap((group) =>
      children(group).filter((item) => firstOf(item, '0040A040') === 'NUM'),
    );
    expect(numbers).toHaveLength(known.length);
    expect(known.length).toBeGreaterThanOrEqual(9);
    for (const reading of known) {
      const item = numbers.find(
        (number) =>
          codeOf(named(number, OWN_CODES.kindOfReading)[0]!) === QUANTITY_CODES[reading.quantity].value &&
          firstOf(itemsIn(number, '0040A300')[0]!, '0040A161') === reading.value,
      );
      expect(item, reading.id).toBeDefined();
      if (item === undefined) continue;
      const value = itemsIn(item, '0040A300')[0]!;
      expect(Number(firstOf(value, '0040A30A'))).toBeCloseTo(reading.value, 1);
      const unit = itemsIn(value, '004008EA')[0]!;
      // UCUM.
      const ucum = {
        degrees: 'deg',
        millimetres: 'mm',
        'percent of bone': '%',
        'percent of shaft width': '%',
        'percent of nail width': '%',
      };
      expect(firstOf(unit, '00080100')).toBe(ucum[reading.unit]);
      const [uncertainty] = named(item, CODES.uncertainty);
      expect(firstOf(uncertainty!, '0040A010')).toBe('HAS PROPERTIES');
      expect(firstOf(itemsIn(uncertainty!, '0040A300')[0]!, '0040A161')).toBe(reading.expandedUncertainty);
    }
  });

  itWithDicomTools('carries every caution, worst first, with its reason and the films it is about', () => {
    const { cautions } = assessed(sampleCase());
    const comments = named(report(), CODES.comment).map((item) => firstOf(item, '0040A160'));
    expect(new Set(cautions.map(({ about }) => about))).toEqual(
      new Set(['examination', 'film', 'reading', 'use']),
    );
    for (const [index, { title, why, usually, films }] of cautions.entries()) {
      for (const words of [title, why, usually, ...films]) {
        expect(comments[index]).toContain(withPlainSpaces(words));
      }
    }
    expect(comments).toHaveLength(cautions.length);
  });

  itWithDicomTools('puts both axes on the film as lines of two points, proximal first', () => {
    const root = report();
    const [measurements] = named(root, CODES.imagingMeasurements);
    const [angle] = named(children(measurements!)[0]!, CODES.angle);
    const lines = named(angle!, CODES.path);
    const axes = axesOnFilm(sampleCase(), recordId('film-1'));
    const points = [axes.proximal, axes.distal].map((axis) => {
      const { from, to } = succeeded(axis!);
      return [from.column, from.row, to.column, to.row];
    });
    for (const [index, line] of lines.entries()) {
      expect(firstOf(line, '00700023')).toBe('POLYLINE');
      // VR FL keeps 24 bits: 1/32768 of a pixel at 400.
      for (const [at, coordinate] of (line['00700022']!.Value as number[]).entries()) {
        expect(coordinate).toBeCloseTo(points[index]![at]!, 4);
      }
      const [picture] = children(line);
      expect(firstOf(itemsIn(picture!, '00081199')[0]!, '00081155')).toBe(INSTANCE_UIDS['film-1']);
    }
    expect(lines).toHaveLength(2);
  });

  itWithDicomTools('lists every referenced film as evidence, in the study of the film', () => {
    const root = report();
    expect(firstOf(root, '0020000D')).toBe(STUDY_UID);
    expect(firstOf(root, '0020000E')).not.toBe(SERIES_UID);
    const [study] = itemsIn(root, '0040A375');
    const [series] = itemsIn(study!, '00081115');
    expect(itemsIn(series!, '00081199').map((item) => firstOf(item, '00081155'))).toEqual(
      Object.values(INSTANCE_UIDS),
    );
  });

  itWithDicomTools('copies the patient as the film has it, in another character set too', () => {
    const root = report();
    expect(firstOf(root, '00100010')).toEqual({ Alphabetic: 'Quillfeather^Zebulon' });
    // PS3.5 Annex H, example H.3-1 is Yamada^Tarou; here a Latin-1 name of our own with an umlaut and an accent.
    const accented = sourceOf(
      sourceBytes('film-1', [
        { tag: '0008,0005', vr: 'CS', value: 'ISO_IR 100' },
        { tag: '0010,0010', vr: 'PN', value: 'M\xfcller^Andr\xe9' },
      ]),
    );
    const sources = new Map([[recordId('film-1'), accented]]);
    const again = written(succeeded(srDataset({ ...reportInput(), sources })));
    expectSoundObject(again);
    expect(firstOf(asJson(again), '00100010')).toEqual({ Alphabetic: 'Müller^André' });
  });

  it('refuses a case without readings, and films of two people', () => {
    expect(failed(srDataset({ ...reportInput(), sources: new Map() }))).toEqual({ kind: 'no-readings' });
    const empty = caseOf(film('film-1'));
    expect(failed(srDataset(reportInput(empty)))).toEqual({ kind: 'no-readings' });
    const stranger = sourceOf(sourceBytes('film-2', [{ tag: '0010,0020', vr: 'LO', value: 'PID-OTHER' }]));
    const sources = new Map([...sampleSources(), [recordId('film-2'), stranger]]);
    expect(failed(srDataset({ ...reportInput(), sources }))).toMatchObject({ kind: 'different-patients' });
  });

  it('finds films of two people behind one that names nobody', () => {
    const third = caseOf(
      ...Object.values(sampleCase().records),
      film('film-3', { view: 'oblique' }),
      mark('film-3/proximal-axis', 'film-3', 'proximal-axis', free([1, 90], [1, 40])),
      mark('film-3/distal-axis', 'film-3', 'distal-axis', free([1, 40], [20, 10])),
    );
    const [one, two] = [...sampleSources().values()];
    const sources = new Map([
      [recordId('film-1'), { ...one!, identity: null }],
      [recordId('film-2'), { ...two!, identity: 'one person' }],
      [recordId('film-3'), { ...one!, identity: 'another person' }],
    ]);
    expect(failed(srDataset({ ...reportInput(third), sources }))).toMatchObject({
      kind: 'different-patients',
    });
  });

  it('is not written of another finger alone', () => {
    const { records } = sampleCase();
    const ring = caseOf(
      ...Object.values(records).map((record) =>
        record.kind === 'film' && record.hand === 'other' ? { ...record, ray: 'ring' as const } : record,
      ),
    );
    const sources = new Map([...sampleSources()].filter(([id]) => id === recordId('film-2')));
    expect(reportInput(ring).assessment.readings.some(({ filmId }) => filmId === recordId('film-2'))).toBe(
      true,
    );
    expect(failed(srDataset({ ...reportInput(ring), sources }))).toEqual({ kind: 'no-readings' });
  });

  itWithDicomTools('leaves out films that are pictures', () => {
    const document = caseOf(
      ...Object.values(sampleCase().records),
      film('picture', { format: 'png', view: 'oblique' }),
      mark('picture/proximal-axis', 'picture', 'proximal-axis', free([1, 90], [1, 40])),
      mark('picture/distal-axis', 'picture', 'distal-axis', free([1, 40], [20, 10])),
    );
    const dataset = written(succeeded(srDataset(reportInput(document))));
    expectSoundObject(dataset);
    const [library] = named(asJson(dataset), CODES.imageLibrary);
    expect(children(children(library!)[0]!)).toHaveLength(2);
  });
});
