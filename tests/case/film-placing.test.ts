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

  it('names the pixels in the budget: as what bounds it, and where they come near to that', () => {
    const basis = (overrides: Partial<FilmRecord>) => placed(overrides)?.basis.text;
    expect(basis({ spacing: ofPixels(1.4) })).toBe(
      'half a pixel of 1.4 mm: this film is too coarse for the placing error of assumed 0.5 mm per coordinate',
    );
    expect(basis({ spacing: ofPixels(1.4, 0.7), lossy: true })).toBe(
      'one pixel of 1.4 mm, since compression with loss blurs edges: this film is too coarse for the placing error of assumed 0.5 mm per coordinate',
    );
    // 0.5 mm / 0.37 mm = 1.35, less than four times the half pixel, or the whole one, that bounds it.
    expect(basis({ spacing: ofPixels(0.37) })).toBe(
      'assumed 0.5 mm per coordinate: 1.4 pixels of 0.37 mm; never taken below half a pixel',
    );
    expect(basis({ spacing: ofPixels(0.37), lossy: true })).toBe(
      'assumed 0.5 mm per coordinate: 1.4 pixels of 0.37 mm; never taken below one pixel, since compression with loss blurs edges',
    );
    // Four times and more: 2 and 4 pixels.
    expect(basis({ spacing: ofPixels(0.25) })).toBe('assumed 0.5 mm per coordinate');
    expect(basis({ spacing: ofPixels(0.126), lossy: true })).toMatch(/: 4.0 pixels of 0.126 mm; never/);
    expect(basis({ spacing: ofPixels(0.125), lossy: true })).toBe('assumed 0.5 mm per coordinate');
  });

  it('leaves the words of an error from repeats alone: films that share it are known by them', () => {
    const repeated = placingOn(
      {
        film: film('film-1', { spacing: ofPixels(0.37), lossy: true }),
        marks: { 'proximal-axis': mark('a', 'film-1', 'proximal-axis', free([100, 100], [100, 160])) },
      },
      { ...settings(), placingErrorMm: 0.4, placingErrorDegreesOfFreedom: 10 },
      'small',
    );
    expect(repeated?.basis).toEqual({ text: '0.4 mm per coordinate, from repeats', degreesOfFreedom: 10 });
  });

  it('holds without a scale too: a small picture cannot be read more finely than its pixels', () => {
    const square: Spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] };
    // 10 columns of axis stand for half of a bone of 53.69 mm: 0.5 mm would be 0.19 columns.
    const small = placed({ spacing: square }, free([100, 100], [100, 110]));
    expect(small?.standardUncertainty).toBe(0.5);
    expect(small?.basis.text).toMatch(/^half a pixel: this film is too coarse/);
    // Of 60 columns it would be 1.12.
    expect(placed({ spacing: square })?.basis.text).toMatch(
      /how far the axes reach: 1\.1 pixels; never taken below half a pixel$/,
    );
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
