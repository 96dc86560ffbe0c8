import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { type Dataset, writeDicom } from '../../../src/record/dicom/dicom-write.ts';
import { succeeded } from '../../case/samples.ts';
import { inFolder, itNeeds, outputOf, runTool } from '../../outside-tools.ts';

/** For tests that use `expectSoundObject` or `asJson`. */
export const itWithDicomTools: ReturnType<typeof itNeeds> = itNeeds('dciodvfy', '/usr/bin/python3');

export const written = (dataset: Dataset): Uint8Array => succeeded(writeDicom(dataset));

/** Runs work on a file with these bytes. */
export const asFile = <Value>(bytes: Uint8Array, work: (path: string) => Value): Value =>
  inFolder((folder) => {
    const path = join(folder, 'object.dcm');
    writeFileSync(path, bytes);
    return work(path);
  });

/**
 * dciodvfy (dicom3tools, David Clunie) checks an object against the information object definitions of PS3.3:
 * no error, and no warning but that our own coding scheme is not one it knows, and that a study without a number
 * cannot be listed in a directory of a disc.
 */
export function expectSoundObject(bytes: Uint8Array): void {
  asFile(bytes, (path) => {
    const { out, err } = runTool('dciodvfy', ['-new', path]);
    const lines = `${out}\n${err}`.split('\n');
    expect(lines.filter((line) => line.startsWith('Error'))).toEqual([]);
    expect(
      lines.filter((line) => line.startsWith('Warning') && !/99RAYBEND|needed to build DICOMDIR/.test(line)),
    ).toEqual([]);
  });
}

/** What an independent reader (pydicom) makes of the bytes: the DICOM JSON model, PS3.18 F. */
export function asJson(bytes: Uint8Array): Record<string, JsonElement> {
  return asFile(bytes, (path) =>
    JSON.parse(
      outputOf('/usr/bin/python3', [
        '-c',
        'import sys, pydicom; print(pydicom.dcmread(sys.argv[1]).to_json(bulk_data_threshold=10**9))',
        path,
      ]),
    ),
  );
}

export interface JsonElement {
  readonly vr: string;
  readonly Value?: readonly unknown[];
  readonly InlineBinary?: string;
}

/** First value of an attribute as pydicom read it; null where there is none. */
export const firstOf = (object: Record<string, JsonElement>, tag: string): unknown =>
  object[tag]?.Value?.[0] ?? null;
