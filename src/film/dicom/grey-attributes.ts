import type { GreyScale, LookupTable, ModalityTransform, VoiFunction, Window } from '../film.ts';
import { isUsableWindow } from '../grey-scale.ts';
import type { Attributes } from './attributes.ts';
import { readLookupTable } from './lookup-tables.ts';
import type { PixelDescription } from './pixel-description.ts';

type Noted<Value> = { readonly value: Value; readonly notes: readonly string[] };

const NO_RESCALE: ModalityTransform = { kind: 'rescale', slope: 1, intercept: 0 };

function readModality(attributes: Attributes, signed: boolean): Noted<ModalityTransform> {
  const item = attributes.items('ModalityLUTSequence')[0];
  if (item !== undefined) {
    const table = readLookupTable(item, 'LUTDescriptor', 'LUTData', signed);
    if (table !== null) return { value: { kind: 'table', table }, notes: [] };
  }
  const notes = item === undefined ? [] : ['The modality lookup table could not be read; it is left out.'];
  const slope = attributes.number('RescaleSlope') ?? 1;
  const intercept = attributes.number('RescaleIntercept') ?? 0;
  if (Number.isFinite(slope) && Number.isFinite(intercept) && slope !== 0) {
    return { value: { kind: 'rescale', slope, intercept }, notes };
  }
  return {
    value: NO_RESCALE,
    notes: [...notes, 'The rescale slope or intercept is no number; it is left out.'],
  };
}

const isVoiFunction = (text: string): text is VoiFunction =>
  text === 'LINEAR' || text === 'LINEAR_EXACT' || text === 'SIGMOID';

function readWindows(attributes: Attributes): Noted<readonly Window[]> {
  const centers = attributes.numbers('WindowCenter');
  const widths = attributes.numbers('WindowWidth');
  const explanations = attributes.texts('WindowCenterWidthExplanation');
  const stated = attributes.string('VOILUTFunction') ?? 'LINEAR';
  const voiFunction = isVoiFunction(stated) ? stated : 'LINEAR';
  const notes: string[] = [];
  if (!isVoiFunction(stated)) notes.push(`The VOI function “${stated}” is not known; LINEAR is used.`);
  const windows: Window[] = [];
  for (let i = 0; i < Math.max(centers.length, widths.length); i++) {
    const window: Window = {
      center: centers[i] ?? Number.NaN,
      width: widths[i] ?? Number.NaN,
      function: voiFunction,
      explanation: explanations[i] || null,
    };
    if (isUsableWindow(window)) windows.push(window);
    else
      notes.push(
        `Window ${i + 1} of the file cannot be used: its centre or width is no usable number. Check the brightness and contrast before placing anything.`,
      );
  }
  return { value: windows, notes };
}

/** Fewest bits that hold the greatest entry. */
const bitsUsed = (table: LookupTable) => 32 - Math.clz32(table.entries.reduce((a, b) => Math.max(a, b), 1));

function readVoiTables(attributes: Attributes, signedInput: boolean): Noted<readonly LookupTable[]> {
  const notes: string[] = [];
  const tables = attributes.items('VOILUTSequence').flatMap((item, index) => {
    const table = readLookupTable(item, 'LUTDescriptor', 'LUTData', signedInput);
    if (table === null) {
      notes.push(`VOI lookup table ${index + 1} of the file could not be read; it is left out.`);
      return [];
    }
    // Some makers write 16 here whatever the entries need; the picture would come out almost black.
    const needed = bitsUsed(table);
    if (table.bitsPerEntry !== 16 || needed > 12) return [table];
    notes.push(
      `VOI lookup table ${index + 1} says 16 bits and uses ${needed}; it is shown over ${needed} bits.`,
    );
    return [{ ...table, bitsPerEntry: needed }];
  });
  return { value: tables, notes };
}

function readPadding(attributes: Attributes, signed: boolean): GreyScale['padding'] {
  const value = attributes.shorts('PixelPaddingValue', signed)[0];
  if (value === undefined) return null;
  const limit = attributes.shorts('PixelPaddingRangeLimit', signed)[0] ?? value;
  return { from: Math.min(value, limit), to: Math.max(value, limit) };
}

/**
 * PS3.3 C.8.11.3: INVERSE goes with MONOCHROME1 and IDENTITY with MONOCHROME2. A file that pairs them otherwise
 * is shown by its photometric interpretation.
 */
function shapeNotes(attributes: Attributes, photometric: GreyScale['photometric']): readonly string[] {
  const shape = attributes.string('PresentationLUTShape');
  const expected = photometric === 'MONOCHROME1' ? 'INVERSE' : 'IDENTITY';
  return shape === null || shape === expected
    ? []
    : [
        `The file says ${photometric} and ${shape}, which do not go together; black and white may be exchanged.`,
      ];
}

/** Everything a grey DICOM frame says of its display, with what could not be used as notes. */
export function readGreyScale(attributes: Attributes, description: PixelDescription): Noted<GreyScale> {
  const { signed, bitsStored } = description;
  const modality = readModality(attributes, signed);
  // What a modality table puts out is never signed, whatever the stored values are (PS3.3 C.11.1.1.1).
  const signedOutput = modality.value.kind === 'rescale' && (signed || modality.value.intercept < 0);
  const windows = readWindows(attributes);
  const voiTables = readVoiTables(attributes, signedOutput);
  const photometric = description.photometric === 'MONOCHROME1' ? 'MONOCHROME1' : 'MONOCHROME2';
  return {
    value: {
      bitsStored,
      signed,
      photometric,
      modality: modality.value,
      windows: windows.value,
      voiTables: voiTables.value,
      padding: readPadding(attributes, signed),
    },
    notes: [...modality.notes, ...windows.notes, ...voiTables.notes, ...shapeNotes(attributes, photometric)],
  };
}
