import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inventedDicom, inventedPng, truthText } from '../../src/cli/invented-files.ts';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { SAMPLES, sampleFilm } from '../../src/cli/sample-list.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { outputOf, runTool } from '../outside-tools.ts';

const file = (name: string): string => resolve(import.meta.dirname, '../../sample-images', name);
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('sample films', () => {
  it('can be made again, byte for byte', async () => {
    const sample = SAMPLES[0]!;
    const film = sampleFilm(sample);
    expect(hashOf(inventedDicom(film, sample))).toBe(hashOf(await readFile(file(`${sample.name}.dcm`))));
    expect(hashOf(inventedPng(film))).toBe(hashOf(await readFile(file(`${sample.name}.png`))));
    expect(truthText(film)).toBe(await readFile(file(`${sample.name}.truth.json`), 'utf8'));
  });

  it.each(SAMPLES)('$name satisfies dciodvfy and is small', async ({ name }) => {
    // dicom3tools checks attributes, types, VRs and enumerated values against PS3.3.
    const { out, err } = runTool('dciodvfy', ['-new', file(`${name}.dcm`)]);
    const said = `${out}${err}`;
    expect(said).toContain('DXImageForPresentation');
    expect(said.split('\n').filter((line) => line.startsWith('Error'))).toEqual([]);
    for (const ending of ['dcm', 'png']) {
      expect((await readFile(file(`${name}.${ending}`))).length).toBeLessThan(2_000_000);
    }
  });

  it.each(SAMPLES)('$name reads the same in pydicom and here', async ({ name }) => {
    const script = `
import json, sys, hashlib, pydicom
d = pydicom.dcmread(sys.argv[1])
print(json.dumps([d.Rows, d.Columns, d.BitsStored, str(d.PatientName), d.ImageLaterality, d.ViewPosition,
  [float(v) for v in d.ImagerPixelSpacing], hashlib.sha256(d.PixelData).hexdigest()]))`;
    const said = JSON.parse(outputOf('/usr/bin/python3', ['-c', script, file(`${name}.dcm`)])) as unknown[];
    const read = await readFilm(new Uint8Array(await readFile(file(`${name}.dcm`))), nodeFilmTools, 0);
    if (!read.ok) throw new Error(read.error.kind);
    const { value: film } = read;
    const { pixels } = film.levels[0]!;
    const [rows, columns, bits, patient, laterality, view, spacing, hash] = said;
    expect([film.rows, film.columns, film.grey.bitsStored]).toEqual([rows, columns, bits]);
    expect(patient).toBe('INVENTED^FILM');
    expect([film.facts.laterality, film.facts.viewPosition]).toEqual([laterality, view]);
    expect(film.spacing).toMatchObject({ rowSpacingMm: (spacing as number[])[0], plane: 'detector' });
    expect(hashOf(new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.byteLength))).toBe(hash);
  });

  it('have UIDs of their own and share a study where they share a patient', () => {
    const script = `
import json, sys, pydicom
out = []
for path in sys.argv[1:]:
    d = pydicom.dcmread(path, stop_before_pixels=True)
    out.append([d.StudyInstanceUID, d.SeriesInstanceUID, d.SOPInstanceUID, d.PatientID])
print(json.dumps(out))`;
    const paths = SAMPLES.map(({ name }) => file(`${name}.dcm`));
    const rows = JSON.parse(outputOf('/usr/bin/python3', ['-c', script, ...paths])) as string[][];
    expect(new Set(rows.map((row) => row[2])).size).toBe(SAMPLES.length);
    expect(new Set(rows.map((row) => row[1])).size).toBe(SAMPLES.length);
    expect(new Set(rows.slice(0, 4).map((row) => row[0])).size).toBe(1);
    expect(rows[4]![0]).not.toBe(rows[0]![0]);
    for (const row of rows) for (const uid of row.slice(0, 3)) expect(uid).toMatch(/^2\.25\.[1-9]\d{0,38}$/);
  });
});
