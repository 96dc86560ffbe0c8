import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { recordId } from '../../../src/case/document.ts';
import type { Film } from '../../../src/film/film.ts';
import type { Light } from '../../../src/film/grey-scale.ts';
import { type GspsInput, gspsDataset, type ShownAs } from '../../../src/record/dicom/gsps.ts';
import { caseOf, failed, film, succeeded } from '../../case/samples.ts';
import { inFolder, itNeeds, outputOf, runTool } from '../../outside-tools.ts';
import {
  assessed,
  INSTANCE_UIDS,
  openSample,
  sampleCase,
  sourceBytes,
  sourceOf,
  writingFacts,
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

const WINDOW: Light = {
  shown: { kind: 'window', center: 1000, width: 600, function: 'LINEAR' },
  negative: false,
};

const FALLING: Light = {
  shown: { kind: 'window', center: 1000, width: 600, function: 'LINEAR', falls: true },
  negative: false,
};

let opened: Film;
beforeAll(async () => {
  opened = await openSample();
});

const inputFor = (shownAs: Partial<ShownAs> = {}, overrides: Partial<GspsInput> = {}): GspsInput => {
  const document = sampleCase();
  return {
    ...writingFacts(),
    document,
    assessment: assessed(document),
    filmId: recordId('film-1'),
    film: opened,
    source: sourceOf(sourceBytes('film-1')),
    shownAs: { light: WINDOW, turnDegrees: 0, mirrored: false, ...shownAs },
    ...overrides,
  };
};

const gspsOf = (shownAs: Partial<ShownAs> = {}, overrides: Partial<GspsInput> = {}): Uint8Array =>
  written(succeeded(gspsDataset(inputFor(shownAs, overrides))));

type Item = Record<string, JsonElement>;
const itemsIn = (item: Item, tag: string) => (item[tag]?.Value ?? []) as Item[];

/** The picture that dcmtk's dcmp2pgm makes of a film under a presentation state, before it is turned: 8 bits. */
const rendered = (presentation: Uint8Array, source: Uint8Array): Uint8Array =>
  inFolder((folder) => {
    const [state, picture, out] = ['state.dcm', 'film.dcm', 'out.pgm'].map((name) => join(folder, name));
    writeFileSync(state!, presentation);
    writeFileSync(picture!, source);
    outputOf('dcmp2pgm', ['-p', state!, picture!, out!]);
    const pgm = readFileSync(out!);
    return pgm.subarray(pgm.length - opened.columns * opened.rows);
  });

describe('gspsDataset', () => {
  itNeeds('dciodvfy', 'dcmpschk').each([
    ['as it is', {}],
    ['mirrored and turned', { mirrored: true, turnDegrees: 90 }],
    ['turned by a half', { turnDegrees: 180 }],
    ['turned by a quarter', { turnDegrees: 90 }],
    ['mirrored', { mirrored: true }],
    ['by its full range, negative', { light: { shown: { kind: 'full-range' }, negative: true } }],
  ] satisfies [string, Partial<ShownAs>][])('is sound by dciodvfy and dcmpschk: %s', (_, shownAs) => {
    const bytes = gspsOf(shownAs);
    expectSoundObject(bytes);
    asFile(bytes, (path) => {
      const { status, out, err } = runTool('dcmpschk', [path]);
      expect(`${out}${err}`).toContain('Test passed');
      expect(`${out}${err}`).not.toMatch(/^[EF]:|Error/m);
      expect(status).toBe(0);
    });
  });

  /**
   * PS3.3 C.11.2.1.2.1, LINEAR with c = 1000, w = 600: stored 700 and below are black, 1300 and above white, and
   * the middle of the window is the middle of the grey scale.
   */
  itNeeds('dcmp2pgm')('windows the film as an independent renderer shows it', () => {
    const source = sourceBytes('film-1');
    const grey = rendered(gspsOf(), source);
    const negative = rendered(gspsOf({ light: { ...WINDOW, negative: true } }), source);
    const falling = rendered(gspsOf({ light: FALLING }), source);
    const stored = opened.levels[0]!.pixels;
    const at = (value: number) => stored.indexOf(value);
    expect([700, 1300].map((value) => grey[at(value)])).toEqual([0, 255]);
    for (const value of [800, 1000, 1200]) {
      const expected = ((value - 999.5) / 599 + 0.5) * 255;
      expect(Math.abs(grey[at(value)]! - expected), `stored ${value}`).toBeLessThanOrEqual(1);
      expect(Math.abs(negative[at(value)]! - (255 - expected)), `stored ${value}`).toBeLessThanOrEqual(1);
      expect(Math.abs(falling[at(value)]! - (255 - expected)), `stored ${value}`).toBeLessThanOrEqual(1);
    }
  });

  /**
   * PS3.3 C.10.6: rotation clockwise, then the flip. Where the plate mirrors before it turns, a film turned 90°
   * clockwise is one turned 270° and mirrored then: the point at the left of the top row goes, mirrored, to the
   * right of it, and with a quarter turn clockwise to the bottom of the right column; in the other order, 270°
   * clockwise takes it to the bottom of the left column, and the flip to the right.
   */
  itWithDicomTools.each([
    [{ mirrored: false, turnDegrees: 0 }, ['N', 0]],
    [{ mirrored: false, turnDegrees: 90 }, ['N', 90]],
    [{ mirrored: false, turnDegrees: -90 }, ['N', 270]],
    [{ mirrored: true, turnDegrees: 0 }, ['Y', 0]],
    [{ mirrored: true, turnDegrees: 90 }, ['Y', 270]],
    [{ mirrored: true, turnDegrees: 540 }, ['Y', 180]],
  ])('turns and mirrors in the order of the standard: %j', (shownAs, expected) => {
    const object = asJson(gspsOf(shownAs));
    expect([firstOf(object, '00700041'), firstOf(object, '00700042')]).toEqual(expected);
  });

  itWithDicomTools('draws both axes and says the reading, on the film it belongs to', () => {
    const object = asJson(gspsOf());
    const [reading] = itemsIn(object, '00700001');
    const lines = itemsIn(reading!, '00700009').filter((line) => firstOf(line, '00700023') === 'POLYLINE');
    // The distal axis starts at the broken end, where sampleCase put it.
    expect(lines[1]!['00700022']!.Value!.slice(0, 2)).toEqual([200.5, 240.5]);
    const [text] = itemsIn(reading!, '00700008');
    expect(firstOf(text!, '00700006')).toMatch(/^3\d° ± \d$/);
    const [on] = itemsIn(reading!, '00081140');
    expect(firstOf(on!, '00081155')).toBe(INSTANCE_UIDS['film-1']);
  });

  // dciodvfy holds the words to the descriptor: 8 or 16 bits of a modality table, words above 8 bits of a VOI table.
  itWithDicomTools('keeps a modality table and a VOI table of the film', () => {
    const table = (bitsPerEntry: number) => ({
      firstMapped: 0,
      bitsPerEntry,
      entries: Uint16Array.from({ length: 4096 }, (_, index) =>
        Math.round((index / 4095) * (2 ** bitsPerEntry - 1)),
      ),
      explanation: 'of this film',
    });
    const grey = {
      ...opened.grey,
      modality: { kind: 'table', table: table(16) } as const,
      voiTables: [table(8)],
    };
    const bytes = gspsOf(
      { light: { shown: { kind: 'voi-table', index: 0 }, negative: false } },
      { film: { ...opened, grey } },
    );
    expectSoundObject(bytes);
    const object = asJson(bytes);
    const [modality] = itemsIn(object, '00283000');
    expect(modality!['00283002']!.Value).toEqual([4096, 0, 16]);
    const [voi] = itemsIn(itemsIn(object, '00283110')[0]!, '00283010');
    expect(voi!['00283002']!.Value).toEqual([4096, 0, 16]);
  });

  it.each([
    ['a turn that is no quarter', { turnDegrees: 30 }, {}, { kind: 'turn-not-quarter', turnDegrees: 30 }],
    ['a film it does not know', {}, { filmId: recordId('film-9') }, { kind: 'no-such-film' }],
    [
      'a film with nothing placed on it',
      {},
      { document: caseOf(film('film-1')) },
      { kind: 'nothing-placed' },
    ],
  ] satisfies [string, Partial<ShownAs>, Partial<GspsInput>, object][])(
    'refuses %s',
    (_, shownAs, overrides, expected) => {
      expect(failed(gspsDataset(inputFor(shownAs, overrides)))).toEqual(expected);
    },
  );

  it('refuses a film in colour', () => {
    const source = { ...sourceOf(sourceBytes('film-1')), photometric: 'RGB' };
    expect(failed(gspsDataset(inputFor({}, { source })))).toEqual({
      kind: 'colour-film',
      photometric: 'RGB',
    });
  });
});
