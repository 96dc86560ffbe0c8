import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/tolerance/cautions.ts';
import { facts, film } from './caution-facts-builder.ts';
import { complete, ids, QUIET } from './said-cautions.ts';

describe('films', () => {
  const spacing = film().spacing;
  const ratio = { kind: 'ratio', rowToColumn: 1, origin: 'PixelAspectRatio', conflicts: [] } as const;

  it.each([
    ['side-disagrees', { statedSide: 'L' }],
    ['oblique-view', { view: 'oblique' }],
    ['view-not-said', { view: null }],
    ['short-lever', { axes: [{ name: 'distal axis', lengthMm: 5.9, lengthInPlacingErrors: 11.8 }] }],
    [
      'short-for-placing-error',
      { axes: [{ name: 'distal axis', lengthMm: 9, lengthInPlacingErrors: 19.9 }] },
    ],
    ['few-pixels', { reachPixels: 114 }],
    ['few-pixels', { reachPixels: 229, lossy: true }],
    ['slanted-photograph', { slant: { upToDegrees: null } }],
    ['slanted-photograph', { slant: { upToDegrees: 6.24 } }],
    ['pixel-shape-assumed', { spacing: { ...ratio, origin: 'assumed-square' } }],
    ['spacing-conflict', { spacing: { ...spacing, conflicts: ['Two spacings disagree.'] } }],
    ['no-spacing', { spacing: ratio }],
    ['mirrored', { mirrored: true }],
    ['burned-in-text', { burnedIn: true }],
    ['spacing-at-detector', { spacing: { ...spacing, plane: 'detector' } }],
    ['spacing-plane-not-known', { spacing: { ...spacing, plane: 'not-known' } }],
    ['unequal-spacing', { spacing: { ...spacing, rowSpacingMm: 0.2 } }],
    ['unequal-spacing', { spacing: { ...ratio, rowToColumn: 1.2 } }],
    ['lossy-compression', { lossy: true }],
    ['invented-film', { invented: true }],
  ] as const)('%s', (id, change) => {
    const other = film({ name: 'PA of day 0', view: 'pa', axes: [] });
    const raised = cautionsFor(facts({ films: [film(change as Parameters<typeof film>[0]), other] }));
    const caution = raised.find((candidate) => candidate.id === id);
    expect(caution).toMatchObject({ about: 'film', films: ['film of day 0'] });
    complete(caution!);
  });

  it('names every film it concerns, once', () => {
    const films = [film({ lossy: true }), film({ name: 'PA of day 0', view: 'pa', lossy: true })];
    const lossy = cautionsFor(facts({ films })).filter((caution) => caution.id === 'lossy-compression');
    expect(lossy.map((caution) => caution.films)).toEqual([['film of day 0', 'PA of day 0']]);
  });

  it('asks for twice the pixels after compression with loss, where a whole one is the least that is placed to', () => {
    expect(ids(facts({ films: [film({ reachPixels: 229 })] }))).not.toContain('few-pixels');
    expect(ids(facts({ films: [film({ reachPixels: 230, lossy: true })] }))).not.toContain('few-pixels');
    // Two axes of half that length, placed to one pixel: √2 · √2 · 1 / (230 / 2) rad.
    expect((4 / 230) * (180 / Math.PI)).toBeCloseTo(1, 2);
  });

  it('is quiet at the thresholds: 6 mm, 20 placing errors, 115 pixels', () => {
    const axes = [{ name: 'distal axis', lengthMm: 6, lengthInPlacingErrors: 20 }];
    const raised = ids(facts({ films: [film({ axes, reachPixels: 115 }), film({ view: 'pa' })] }));
    expect(raised).not.toContain('few-pixels');
    // 115 pixels is where two axes of half that length, placed to half a pixel, give 1°: 2/115 rad.
    expect((2 / 115) * (180 / Math.PI)).toBeCloseTo(1, 2);
    expect(raised).not.toContain('short-lever');
    expect(raised).not.toContain('short-for-placing-error');
  });

  it('counts the lever in placing errors where there are no millimetres', () => {
    const axes = [{ name: 'distal axis', lengthMm: null, lengthInPlacingErrors: 10 }];
    expect(ids(facts({ films: [film({ axes, spacing: ratio }), film({ view: 'pa' })] }))).toContain(
      'short-for-placing-error',
    );
  });

  it('is quiet about what the file does not say', () => {
    const silent = film({ lossy: null, burnedIn: null, statedSide: null });
    expect(ids(facts({ films: [silent, film({ view: 'pa' })] }))).toEqual(QUIET);
  });

  it('minds an oblique film only when something is read from it', () => {
    expect(ids(facts({ films: [film(), film({ view: 'oblique', axes: [] })] }))).not.toContain(
      'oblique-view',
    );
  });

  it('never offers a conversion for oblique films', () => {
    // Lamraski 2006: oblique reads up to 35° high; geometry alone says low. No cosine.
    const oblique = cautionsFor(facts({ films: [film({ view: 'oblique' })] })).find(
      (caution) => caution.id === 'oblique-view',
    );
    expect(oblique?.why).toContain('35°');
    expect(oblique?.why).toContain('no safe conversion');
  });

  it('takes the side of either hand, and no side for "both" or "unpaired"', () => {
    const side = (statedSide: 'L' | 'R' | 'B' | 'U' | null, expectedSide: 'left' | 'right' | null) =>
      ids(facts({ films: [film({ statedSide, expectedSide }), film({ view: 'pa' })] })).includes(
        'side-disagrees',
      );
    expect(side('R', 'left')).toBe(true);
    expect(side('R', 'right')).toBe(false);
    expect(side('B', 'left')).toBe(false);
    expect(side('U', 'left')).toBe(false);
    expect(side('L', null)).toBe(false);
  });

  it('asks for a second view of the injured hand, whatever the other hand has', () => {
    expect(ids(facts({ films: [film(), film({ hand: 'other', view: 'pa' })] }))).toContain('one-view-only');
    expect(ids(facts({ films: [film(), film({ name: 'day 7' })] }))).toContain('one-view-only');
    expect(ids(facts({ films: [] }))).not.toContain('one-view-only');
  });
});
