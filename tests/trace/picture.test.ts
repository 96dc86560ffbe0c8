import { describe, expect, it } from 'vitest';
import { assembleFilm, pictureGreyScale } from '../../src/film/assemble.ts';
import type { Film, GreyScale } from '../../src/film/film.ts';
import { planeScale } from '../../src/geometry/spacing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { pictureRound } from '../../src/trace/picture.ts';

const COLUMNS = 100;
const ROWS = 80;

/** Stored values column + 200 × row, so that each pixel can be told; 1 mm pixels. */
function film(grey: Partial<GreyScale> = {}): Film {
  const pixels = Uint16Array.from(
    { length: COLUMNS * ROWS },
    (_, i) => (i % COLUMNS) + 200 * Math.floor(i / COLUMNS),
  );
  return assembleFilm(
    { columns: COLUMNS, rows: ROWS, pixels },
    { ...pictureGreyScale(14), ...grey },
    {
      kind: 'millimetres',
      rowSpacingMm: 1,
      columnSpacingMm: 1,
      plane: 'detector',
      origin: 'invented-film',
      calibrationType: null,
      calibrationDescription: null,
      estimatedMagnification: null,
      relativeStandardUncertainty: 0,
      conflicts: [],
    },
    {
      format: 'png',
      modality: null,
      sopClassUid: null,
      transferSyntaxUid: null,
      viewPosition: null,
      laterality: null,
      patientOrientation: null,
      lossy: false,
      burnedIn: false,
      wasColour: false,
      notes: [],
    },
  );
}

const POINTS = [filmPoint(40, 30), filmPoint(60, 50)];
const pieceOf = (from: Film) => {
  const piece = pictureRound(from, POINTS, planeScale(from.spacing));
  if (piece === null) throw new Error('expected a piece');
  return piece;
};

describe('the piece round the taps', () => {
  it('holds 16 mm to every side, and says where it lies', () => {
    const piece = pieceOf(film());
    expect(piece.firstColumn).toBe(24);
    expect(piece.firstRow).toBe(14);
    expect([piece.columns, piece.rows]).toEqual([76 - 24, 66 - 14]);
    // Its second pixel of its third row is pixel (25, 16) of the film.
    expect(piece.values[2 * piece.columns + 1]).toBe(25 + 200 * 16);
  });

  it('turns MONOCHROME1 over: its lowest stored value is shown white (PS3.3 C.7.6.3.1.2)', () => {
    const piece = pieceOf(film({ photometric: 'MONOCHROME1' }));
    expect(piece.values[0]).toBe(-(24 + 200 * 14));
    expect(piece.least).toBe(-(99 + 200 * 79));
    expect(piece.greatest).toBe(-0);
  });

  it('follows a rescale slope below nothing, which turns the film over as well (PS3.3 C.11.1.1.2)', () => {
    const piece = pieceOf(film({ modality: { kind: 'rescale', slope: -2, intercept: 5 } }));
    expect(piece.values[0]).toBe(-2 * (24 + 200 * 14) + 5);
  });

  it('leaves padding empty', () => {
    const first = 24 + 200 * 14;
    const piece = pieceOf(film({ padding: { from: first, to: first } }));
    expect(piece.values[0]).toBeNaN();
    expect(piece.values[1]).toBe(first + 1);
  });

  it('is cut at the edge of the film, and nothing where there is no film', () => {
    const whole = film();
    const scale = planeScale(whole.spacing);
    expect(pictureRound(whole, [filmPoint(2, 2)], scale)).toMatchObject({
      firstColumn: 0,
      firstRow: 0,
      columns: 18,
      rows: 18,
    });
    expect(pictureRound(whole, [filmPoint(-50, -50)], scale)).toBeNull();
  });
});
