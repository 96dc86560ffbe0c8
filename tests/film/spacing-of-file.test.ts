import { describe, expect, it } from 'vitest';
import { planeScale, toPlane } from '../../src/geometry/spacing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { dicomFile, type Element, filmElements } from './dicom-file.ts';
import { openFilm } from './open.ts';

describe('from a file', () => {
  const decimal = (tag: Element['tag'], value: string): Element => ({ tag, vr: 'DS', value });
  const spacingOf = async (...extra: Element[]) =>
    (await openFilm(dicomFile(filmElements({ extra })))).spacing;

  it('turns 0.2\\0.1 into a line at 63.435°, not 45°', async () => {
    // atan(100 × 0.2 / (100 × 0.1)) = atan 2 = 63.4349°.
    const spacing = await spacingOf(decimal('0018,1164', '0.2\\0.1'));
    const end = toPlane(filmPoint(100, 100), planeScale(spacing));
    expect((Math.atan2(end.y, end.x) * 180) / Math.PI).toBeCloseTo(63.4349, 4);
  });

  it('does not read 0,143 as 0', async () => {
    const spacing = await spacingOf(decimal('0028,0030', '0,143\\0,143'));
    expect(spacing).toMatchObject({ kind: 'ratio', conflicts: [expect.stringMatching(/no number/)] });
  });

  it('reads values padded with spaces and zero bytes', async () => {
    expect(await spacingOf(decimal('0018,1164', ' 0.150000 \\ .15\0'))).toMatchObject({
      rowSpacingMm: 0.15,
      columnSpacingMm: 0.15,
    });
  });

  it('finds the Pixel Spacing of an enhanced object in its shared functional group', async () => {
    const measures: Element = {
      tag: '0028,9110',
      vr: 'SQ',
      value: { items: [[decimal('0028,0030', '0.2\\0.2')]] },
    };
    const shared: Element = { tag: '5200,9229', vr: 'SQ', value: { items: [[measures]] } };
    expect(await spacingOf(shared)).toMatchObject({ rowSpacingMm: 0.2, plane: 'not-known' });
  });
});
