import { assembleFilm } from '../film/assemble.ts';
import type { Film } from '../film/film.ts';
import type { InventedFilm } from './invent.ts';
import type { FilmTruth } from './truth.ts';

/** The window under which an invented film looks as its response was made to look: its full range. */
export const inventedWindow = (bitsStored: number): { readonly center: number; readonly width: number } => ({
  center: 2 ** (bitsStored - 1),
  width: 2 ** bitsStored,
});

const VIEW_POSITIONS = {
  right: { pa: 'PA', oblique: 'RLO', lateral: 'RL' },
  left: { pa: 'PA', oblique: 'LLO', lateral: 'LL' },
} as const;

/** (0018,5101) View Position of a film, as its DICOM file would state it. */
export const viewPosition = ({ side, view }: FilmTruth): string => VIEW_POSITIONS[side][view];

/**
 * An invented film as a film like any other. Its spacing says where it came from and in which plane it
 * holds, with the magnification stated and, in the detector's plane, not applied.
 */
export function toFilm({ columns, rows, pixels, truth }: InventedFilm): Film {
  const { bitsStored } = truth.spec.film;
  return assembleFilm(
    { columns, rows, pixels },
    {
      bitsStored,
      signed: false,
      photometric: 'MONOCHROME2',
      modality: { kind: 'rescale', slope: 1, intercept: 0 },
      windows: [{ ...inventedWindow(bitsStored), function: 'LINEAR', explanation: 'full range' }],
      voiTables: [],
      padding: null,
    },
    {
      kind: 'millimetres',
      rowSpacingMm: truth.statedSpacingMm,
      columnSpacingMm: truth.statedSpacingMm,
      plane: truth.statedPlane,
      origin: 'invented-film',
      calibrationType: null,
      calibrationDescription: null,
      estimatedMagnification: truth.magnification,
      relativeStandardUncertainty: 0,
      conflicts: [],
    },
    {
      format: 'png',
      modality: null,
      sopClassUid: null,
      transferSyntaxUid: null,
      viewPosition: viewPosition(truth),
      laterality: truth.side === 'left' ? 'L' : 'R',
      patientOrientation: null,
      lossy: false,
      burnedIn: false,
      wasColour: false,
      notes: ['This film is invented and shows nobody.'],
    },
  );
}
