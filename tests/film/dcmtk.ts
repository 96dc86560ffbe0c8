import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import dicomParser from 'dicom-parser';
import { expect, it } from 'vitest';
import { inFolder } from '../outside-tools.ts';

/**
 * dcmtk, the reference decoder and renderer of these tests (Debian package `dcmtk`, 3.6.7 when they were
 * written). Nothing of the product uses it.
 */
const TOOLS = [
  'dcmdjpeg',
  'dcmdrle',
  'dcmdjpls',
  'dcmconv',
  'dcm2pnm',
  'dcmcjpeg',
  'dcmcrle',
  'dcmcjpls',
] as const;

export type DcmtkTool = (typeof TOOLS)[number];

const missing: readonly string[] = TOOLS.filter((tool) => spawnSync(tool, ['--version']).error !== undefined);

export const hasDcmtk = missing.length === 0;

/**
 * A test that needs dcmtk: without it, failing in continuous integration and skipped by name elsewhere. Such a
 * test has “dcmtk” in its name and begins with `expectDcmtk`.
 */
export const itWithDcmtk: Pick<typeof it, 'each'> &
  ((name: string, test: () => void | Promise<void>) => void) = it.skipIf(
  !hasDcmtk && process.env.CI !== 'true',
);

export const expectDcmtk = () => expect(missing, 'install the Debian package dcmtk').toEqual([]);

/** Sends a DICOM file through one tool and gives the file it writes. */
export const throughDcmtk = (tool: DcmtkTool, options: readonly string[], file: Uint8Array): Uint8Array =>
  inFolder((folder) => {
    const [from, to] = [join(folder, 'in.dcm'), join(folder, 'out.dcm')];
    writeFileSync(from, file);
    execFileSync(tool, [...options, from, to], { stdio: 'pipe' });
    return readFileSync(to);
  });

/** The samples of uncompressed pixel data of a file, little endian. */
export function decodedSamples(file: Uint8Array, bytesPerSample: number): number[] {
  const element = dicomParser.parseDicom(file).elements.x7fe00010!;
  const bytes = file.subarray(element.dataOffset, element.dataOffset + element.length);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  return Array.from({ length: bytes.length / bytesPerSample }, (_, i) =>
    bytesPerSample === 1 ? view.getUint8(i) : view.getUint16(2 * i, true),
  );
}

/** The picture dcmtk renders, 8 bits, without overlays and without scaling to the aspect ratio. */
export const renderedByDcmtk = (file: Uint8Array, options: readonly string[]): Uint8Array =>
  inFolder((folder) => {
    const [from, to] = [join(folder, 'in.dcm'), join(folder, 'out.pgm')];
    writeFileSync(from, file);
    const renderer: DcmtkTool = 'dcm2pnm';
    execFileSync(renderer, ['-a', '-O', ...options, '+op', from, to], { stdio: 'pipe' });
    const pgm = readFileSync(to);
    // P5, comment lines, width, height, greatest value, then the bytes.
    const [columns, rows] = pgm
      .toString('latin1', 0, 200)
      .split('\n')
      .filter((line) => !line.startsWith('#'))[1]!
      .split(' ')
      .map(Number) as [number, number];
    return pgm.subarray(pgm.length - rows * columns);
  });
