import { writeArchive } from '../../src/case/case-archive.ts';
import type { CaseFile } from '../../src/case/case-content.ts';

export type WholeCase = Pick<CaseFile, 'state' | 'unknownFields'>;

/** The bytes of an archive; films that are not given are named as missing. */
export async function writtenArchive(
  cases: readonly WholeCase[],
  films: ReadonlyMap<string, Uint8Array>,
): Promise<Buffer> {
  const pieces: Uint8Array[] = [];
  await writeArchive(
    {
      cases,
      at: '2026-03-01T09:30:00.000Z',
      filmBytes: async (sha256) => films.get(sha256) ?? null,
    },
    (piece) => pieces.push(piece),
  );
  return Buffer.concat(pieces);
}
