import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import { type CaseDocument, EXAMINATION_ID, recordId } from '../../../src/case/document.ts';
import type { DrawCommand } from '../../../src/drawing/draw-command.ts';
import { planSnapshot } from '../../../src/record/snapshot/plan.ts';
import type { SnapshotChoice, SnapshotPlan } from '../../../src/record/snapshot/snapshot-plan.ts';
import { snapshotSvg } from '../../../src/record/snapshot/svg.ts';
import type { LimitSet } from '../../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, failed, film, free, injury, mark, settings, succeeded } from '../../case/samples.ts';
import { inFolder, itNeeds, outputOf } from '../../outside-tools.ts';
import { largeCase } from '../sample.ts';

/** Half an em per letter: near enough to set lines, and the same on every machine. */
const measure = (text: string, _face: string, size: number) => text.length * size * 0.5;

/**
 * Two axes 45° apart by construction: the proximal one straight up the film, the distal one up and to the
 * right with equal steps (atan 300/300). Dorsal is to the left, so the distal fragment tilts volar.
 */
const document: CaseDocument = caseOf(
  injury(),
  film('film-1', { columns: 800, rows: 1200 }),
  mark('film-1/proximal-axis', 'film-1', 'proximal-axis', free([400, 1000], [400, 700])),
  mark('film-1/distal-axis', 'film-1', 'distal-axis', free([400, 690], [700, 390])),
  mark('film-1/dorsal-side', 'film-1', 'dorsal-side', {
    construction: 'point',
    at: { column: 100, row: 500 } as never,
  }),
);

const ALL: SnapshotChoice = {
  films: [{ id: recordId('film-1'), area: null }],
  marks: true,
  labels: true,
  words: true,
  ground: 'white',
};

const plan = (of: CaseDocument = document, choice: Partial<SnapshotChoice> = {}): SnapshotPlan =>
  succeeded(planSnapshot(of, assess(of, SHIPPED_LIMIT_SETS), { ...ALL, ...choice }, measure));

const panelOf = (of: SnapshotPlan) => of.panels.flatMap(({ commands }) => commands);
const marksOf = (of: SnapshotPlan) => of.films.flatMap(({ marks }) => marks);
const sizeOf = ({ films: [only] }: SnapshotPlan) => ({ width: only?.width, height: only?.height });

const textsOf = (commands: readonly DrawCommand[]) =>
  commands.flatMap((command) =>
    command.kind === 'text' ? [command.runs.map((run) => run.text).join('')] : [],
  );

describe('planSnapshot', () => {
  it('says what was measured, with its interval, the limit, its source and the purpose', () => {
    const lines = textsOf(panelOf(plan())).join(' ');
    expect(lines).toContain('Right hand, small finger, neck');
    expect(lines).toMatch(/45° ±/);
    expect(lines).toContain('Common practice (adult). Source: common practice, no single source');
    expect(lines).toContain('Education and a second look only.');
    expect(lines).toContain('Not checked');
    expect(textsOf(marksOf(plan())).join(' ')).toMatch(/45°/);
  });

  it('names every caution; what nobody has checked is named before the others, whose reasons end with the fifth', () => {
    const large = largeCase();
    const cautions = assess(large, SHIPPED_LIMIT_SETS).cautions.filter(({ about }) => about !== 'use');
    const lines = textsOf(panelOf(plan(large))).join(' ');
    const unchecked = cautions.filter(({ title }) => /not yet (looked at|checked)/.test(title));
    const others = cautions.filter((caution) => !unchecked.includes(caution));
    expect([unchecked.length > 3, others.length > 6]).toEqual([true, true]);
    for (const { title } of cautions) expect(lines).toContain(title);
    for (const { why } of others.slice(0, 5)) expect(lines).toContain(why);
    expect(lines).toContain(`Also: ${others[5]?.title}; ${others[6]?.title}`);
  });

  it('puts what decides before any angle first, with its reason', () => {
    const grave = caseOf(...Object.values(largeCase().records), {
      kind: 'examination',
      id: EXAMINATION_ID,
      answers: { 'open-fracture': 'yes', rotation: 'yes' },
    });
    const lines = textsOf(panelOf(plan(grave))).join(' ');
    const stops = assess(grave, SHIPPED_LIMIT_SETS).cautions.filter(({ grade }) => grade === 'stop');
    const answered = stops.filter(({ title }) =>
      ['Open fracture', 'Rotation or overlap on making a fist'].includes(title),
    );
    expect(answered).toHaveLength(2);
    for (const { title, why } of answered) {
      expect(lines.indexOf(title)).toBeLessThan(lines.indexOf('not yet checked'));
      expect(lines).toContain(why);
    }
  });

  it('says of a film its day and whether it was before or after a reduction', () => {
    const reduced = caseOf(injury(), film('film-1', { day: 3, moment: 'after-reduction' }));
    expect(textsOf(panelOf(plan(reduced))).join(' ')).toContain(
      'Lateral view, right hand (injured hand), day 3 after the injury, after reduction.',
    );
  });

  it('names every chosen set under each film, whatever it says of it', () => {
    const large = largeCase();
    const sets = new Set(assess(large, SHIPPED_LIMIT_SETS).comparisons.map(({ limitSet }) => limitSet.title));
    expect(sets.size).toBe(7);
    for (const id of ['film-1', 'film-3']) {
      const lines = textsOf(panelOf(plan(large, { films: [{ id: recordId(id), area: null }] }))).join(' ');
      for (const title of sets) expect(lines, id).toContain(title);
    }
    const films = ['film-1', 'film-3'].map((id) => ({ id: recordId(id), area: null }));
    const figure = textsOf(panelOf(plan(large, { films }))).join(' ');
    for (const title of sets) expect(figure).toContain(title);
  });

  it('sets what has no room beside a film under it, and lets nothing lie on the film or on other words', () => {
    const { films, panels, strokeScale, height } = plan(largeCase());
    const [picture] = films;
    const [beside, under] = panels.map(({ x, y, commands }) => {
      const rows = commands.flatMap((command) => (command.kind === 'text' ? [command.at.y] : []));
      return { x, top: y + Math.min(...rows) * strokeScale, bottom: y + Math.max(...rows) * strokeScale };
    });
    expect(beside!.x).toBeGreaterThan(picture!.width);
    expect(under!.x).toBeLessThan(picture!.width);
    expect(under!.top).toBeGreaterThan(Math.max(picture!.height, beside!.bottom));
    expect(under!.bottom).toBeLessThan(height);
  });

  it('keeps the resolution of the film, and enlarges a small one by a whole number', () => {
    expect(sizeOf(plan())).toEqual({ width: 800, height: 1200 });
    const small = caseOf(injury(), film('film-1', { columns: 100, rows: 150 }));
    // 820 / 2 / 100 = 4.1, so five px to a column.
    expect(sizeOf(plan(small))).toEqual({ width: 500, height: 750 });
  });

  it('draws numbers twice as large on a film that is looked at small', () => {
    const bare = plan(document, { words: false });
    const small = plan(document, { words: false, small: true });
    expect(small.width).toBe(bare.width);
    const pixels = (one: SnapshotPlan) =>
      one.strokeScale *
      Math.max(
        ...marksOf(one).flatMap((mark) => (mark.kind === 'text' ? mark.runs.map(({ size }) => size) : [])),
      );
    expect(pixels(small) / pixels(bare)).toBeGreaterThan(1.9);
  });

  it('stretches rows where the spacings differ', () => {
    const spacing = { ...film('x').spacing, rowSpacingMm: 0.2, columnSpacingMm: 0.1 } as never;
    const tall = caseOf(injury(), film('film-1', { columns: 1000, rows: 1000, spacing }));
    expect(sizeOf(plan(tall))).toEqual({ width: 1000, height: 2000 });
  });

  it('is high enough for everything that is written', () => {
    const low = plan(caseOf(injury(), film('film-1', { columns: 1200, rows: 200 })));
    const lowest = Math.max(...panelOf(low).map((command) => (command.kind === 'text' ? command.at.y : 0)));
    expect((low.panels[0]?.y ?? 0) + lowest * low.strokeScale).toBeLessThan(low.height);
  });

  it('leaves out what is not wanted', () => {
    expect(marksOf(plan(document, { marks: false, labels: false }))).toEqual([]);
    expect(textsOf(marksOf(plan(document, { labels: false })))).toEqual([]);
    const bare = plan(document, { words: false });
    expect(bare.panels).toEqual([]);
    expect(bare.width).toBe(800);
  });

  it('says how many pixels are a millimetre, and nothing where none are known', () => {
    // 0.1 mm per column at its own resolution.
    expect(plan().pixelsPerMm).toBeCloseTo(10, 9);
    const spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;
    const unscaled = caseOf(injury(), film('film-1', { columns: 800, rows: 1200, spacing }));
    expect(plan(unscaled).pixelsPerMm).toBeNull();
  });

  it('draws several films to one scale, each over its caption', () => {
    // 80 × 120 mm and 40 × 30 mm: the second is half as wide and a quarter as high, whatever its pixels are.
    const coarse = { ...film('x').spacing, rowSpacingMm: 0.3, columnSpacingMm: 0.4 } as never;
    const two = caseOf(
      ...Object.values(document.records),
      film('film-2', { columns: 100, rows: 100, spacing: coarse }),
    );
    const films = ['film-1', 'film-2'].map((id) => ({ id: recordId(id), area: null }));
    const figure = plan(two, { films });
    const [one, other] = figure.films;
    expect(other!.width / one!.width).toBeCloseTo(0.5, 2);
    expect(other!.height / one!.height).toBeCloseTo(0.25, 2);
    expect(other!.x).toBeGreaterThan(one!.x + one!.width);
    expect(one!.width / 80).toBeCloseTo(figure.pixelsPerMm!, 1);
    const lines = textsOf(panelOf(figure)).join(' ');
    expect(lines).toContain('Film 1.');
    expect(lines).toContain('Film 2.');
    expect(lines).toContain('Education and a second look only.');
    // At 620 / 120 units per mm a third of the second film's 207 units is 13 mm, and of the first one's 413 is 27 mm.
    for (const { marks } of figure.films) expect(textsOf(marks)).toContain('10\u2009mm');
  });

  it('draws a part of a film with its marks where they lie on it', () => {
    // The crossing of the axes is at column 400, row 690; the part begins at 300, 600.
    const area = { column: 300, row: 600, columns: 200, rows: 200 };
    const part = plan(document, { films: [{ id: recordId('film-1'), area }], words: false });
    // 820 / 2 / 200 = 2.05, so three px to a column.
    expect(sizeOf(part)).toEqual({ width: 600, height: 600 });
    const at = { x: (400 - 300) * 3, y: (690 - 600) * 3 };
    const ends = marksOf(part).flatMap((command) => (command.kind === 'line' ? command.points : []));
    const nearest = Math.min(
      ...ends.map(({ x, y }) => Math.hypot(x * part.strokeScale - at.x, y * part.strokeScale - at.y)),
    );
    expect(nearest).toBeLessThan(1);
    expect(part.pixelsPerMm).toBeCloseTo(30, 9);
  });

  it('breaks a word that is longer than a line of the panel', () => {
    const [first] = SHIPPED_LIMIT_SETS;
    const title = 'Handprotokoll'.repeat(9);
    const set: LimitSet = { ...first!, id: 'local', title, local: true };
    const chosen = caseOf(...Object.values(document.records), settings({ limitSetIds: ['local'] }));
    const assessment = assess(chosen, [set]);
    const { panels, strokeScale, width } = succeeded(planSnapshot(chosen, assessment, ALL, measure));
    for (const { x, commands } of panels) {
      for (const command of commands) {
        if (command.kind !== 'text' || command.align !== 'left') continue;
        const long = command.runs.reduce((sum, { text, face, size }) => sum + measure(text, face, size), 0);
        expect(x + strokeScale * (command.at.x + long)).toBeLessThanOrEqual(width);
      }
    }
    expect(textsOf(panels.flatMap(({ commands }) => commands)).join('')).toContain(title);
  });

  it('names a film that is not there', () => {
    const empty = caseOf(injury());
    const assessment = assess(empty, SHIPPED_LIMIT_SETS);
    expect(failed(planSnapshot(empty, assessment, ALL, measure)).kind).toBe('no-such-film');
  });
});

describe('snapshotSvg', () => {
  /** Presentation attributes of SVG 1.1 (Second Edition), appendix M and 5.6: the link of a picture and of a use is XLink's. */
  it('asks for nothing that SVG 1.1 does not have', () => {
    const picture = { columns: 1, rows: 1, grey: new Uint8Array(1) };
    const whole = snapshotSvg(plan(), new Map([[recordId('film-1'), picture]]), measure);
    expect(whole).toContain('xmlns:xlink="http://www.w3.org/1999/xlink"');
    expect(whole).toMatch(/<image [^>]*xlink:href="data:image\/png/);
    expect(whole).not.toMatch(/\shref=|paint-order|rgba/);
    // A casing lets the film through: its opacity stands apart from its colour (4.2, 11.2).
    expect(whole).toMatch(/stroke="rgb\(8, 10, 12\)" stroke-opacity="0\.\d+"/);
  });

  it('has each text of a film once, with its casing, and uses it again on top without', () => {
    const casings = [
      ...svg.matchAll(/<g stroke="[^"]+" stroke-opacity="[^"]+" stroke-width="[^"]+"><text id="([^"]+)"/g),
    ];
    expect(casings.length).toBeGreaterThan(1);
    for (const [, id] of casings) {
      expect(svg.split(`id="${id}"`)).toHaveLength(2);
      expect(svg).toContain(`</text></g><use xlink:href="#${id}"/>`);
    }
    // The stroke must not come along: no text has one of its own.
    expect(svg).not.toMatch(/<(text|tspan)[^>]* stroke=/);
  });

  const svg = snapshotSvg(plan(), new Map(), measure);

  it('keeps text as text', () => expect(svg).toContain('>Cautions<'));

  // xmllint is libxml2's checker.
  itNeeds('xmllint')('is well-formed by xmllint', () => {
    inFolder((folder) => {
      const path = join(folder, 'snapshot.svg');
      writeFileSync(path, svg);
      expect(outputOf('xmllint', ['--noout', path])).toBe('');
    });
  });

  it('says how long each text is, so that other fonts keep to it', () => {
    const one = { ...plan(), panels: [{ x: 0, y: 0, commands: [textCommand('twelve signs')] }] };
    const { size } = (textCommand('') as Extract<DrawCommand, { kind: 'text' }>).runs[0]!;
    // Half an em for each of the twelve, by the measure above.
    expect(snapshotSvg(one, new Map(), measure)).toMatch(
      new RegExp(
        `textLength="${12 * 0.5 * size}" lengthAdjust="spacingAndGlyphs"[^>]*><tspan[^>]*>twelve signs`,
      ),
    );
  });

  it('escapes what could end an element', () => {
    const odd = { ...plan(), panels: [{ x: 0, y: 0, commands: [textCommand('a < b & "c"')] }] };
    expect(snapshotSvg(odd, new Map(), measure)).toContain('a &lt; b &amp; &quot;c&quot;');
  });
});

const textCommand = (text: string): DrawCommand => ({
  kind: 'text',
  at: { x: 0, y: 0 } as never,
  align: 'left',
  runs: [{ text, face: 'sans', size: 12, colour: '#000000' }],
});
