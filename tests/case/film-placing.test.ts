import { describe, expect, it } from 'vitest';
import type { FilmRecord, MarkShape } from '../../src/case/document.ts';
import { leastPlacingError, placingOn, reachInPixels } from '../../src/case/film-placing.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { film, free, mark, settings } from './samples.ts';

const ofPixels = (rowSpacingMm: number, columnSpacingMm = rowSpacingMm): Spacing => ({
  kind: 'millimetres',
  rowSpacingMm,
  columnSpacingMm,
  plane: 'detector',
  origin: 'ImagerPixelSpacing',
  calibrationType: null,
  calibrationDescription: null,
  estimatedMagnification: null,
  relativeStandardUncertainty: 0,
  conflicts: [],
});
const placed = (overrides: Partial<FilmRecord>, shape: MarkShape = free([100, 100], [100, 160])) =>
  placingOn(
    {
      film: film('film-1', overrides),
      marks: { 'proximal-axis': mark('a', 'film-1', 'proximal-axis', shape) },
    },
    settings(),
    'small',
  );

describe('placing error on a film of coarse pixels', () => {
  it('is half a pixel at least, along the coarser direction, and a whole one after compression with loss', () => {
    // The nominal 0.5 mm stands until half a pixel is more: at 1 mm per pixel.
    expect(placed({ spacing: ofPixels(0.2) })?.standardUncertainty).toBe(0.5);
    expect(placed({ spacing: ofPixels(1) })?.standardUncertainty).toBe(0.5);
    expect(placed({ spacing: ofPixels(1.4) })?.standardUncertainty).toBeCloseTo(0.7, 12);
    expect(placed({ spacing: ofPixels(1.4, 0.7) })?.standardUncertainty).toBeCloseTo(0.7, 12);
    expect(placed({ spacing: ofPixels(1.4), lossy: true })?.standardUncertainty).toBeCloseTo(1.4, 12);
    expect(placed({ spacing: ofPixels(1.4) })?.basis.text).toContain('half a pixel');
  });

  it('holds without a scale too: a small picture cannot be read more finely than its pixels', () => {
    const square: Spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] };
    // 10 columns of axis stand for half of a bone of 53.69 mm: 0.5 mm would be 0.19 columns.
    const small = placed({ spacing: square }, free([100, 100], [100, 110]));
    expect(small?.standardUncertainty).toBe(0.5);
    expect(placed({ spacing: square, lossy: true }, free([100, 100], [100, 110]))?.standardUncertainty).toBe(
      1,
    );
    expect(leastPlacingError(film('film-1', { spacing: { ...square, rowToColumn: 2 } }))).toBe(1);
  });
});

describe('reach on the bone', () => {
  it('is the longest distance between placed points, in pixels', () => {
    const proximal = mark('a', 'film-1', 'proximal-axis', free([0, 0], [30, 40]));
    const distal = mark('b', 'film-1', 'distal-axis', free([60, 80], [90, 120]));
    const aside = mark('c', 'film-1', 'dorsal-side', { construction: 'point', at: filmPoint(900, 900) });
    const marks = { 'proximal-axis': proximal, 'distal-axis': distal, 'dorsal-side': aside };
    expect(reachInPixels({ film: film('film-1'), marks })).toBe(150); // 3-4-5 triangle, times 30
    expect(reachInPixels({ film: film('film-1'), marks: { 'dorsal-side': aside } })).toBeNull();
  });
});
