import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { it } from 'vitest';

/**
 * Independent programs that the tests hold this one against, by the Debian package that brings them. Nothing
 * of the product uses them.
 */
const PACKAGE_OF = {
  dsrdump: 'dcmtk',
  dcmdump: 'dcmtk',
  dcmcjpeg: 'dcmtk',
  dcmpschk: 'dcmtk',
  dcmp2pgm: 'dcmtk',
  dcmj2pnm: 'dcmtk',
  dciodvfy: 'dicom3tools',
  dcentvfy: 'dicom3tools',
  '/usr/bin/python3': 'python3-pydicom',
  scipy: 'python3-scipy',
  qpdf: 'qpdf',
  pdftotext: 'poppler-utils',
  pdffonts: 'poppler-utils',
  pdfinfo: 'poppler-utils',
  pdftoppm: 'poppler-utils',
  xmllint: 'libxml2-utils',
  transicc: 'liblcms2-utils',
  gdcmconv: 'libgdcm-tools',
} as const;

/** A library is run by its interpreter. */
const COMMAND: Partial<Record<keyof typeof PACKAGE_OF, string>> = { scipy: '/usr/bin/python3' };

export type OutsideTool = keyof typeof PACKAGE_OF;

export interface ToolRun {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a program to its end, whatever it returns. Throws, saying how to get it, where it is not installed. */
export function runTool(tool: OutsideTool, args: readonly string[], input?: string): ToolRun {
  const run = spawnSync(COMMAND[tool] ?? tool, args, {
    encoding: 'utf8',
    input,
    maxBuffer: 64 * 1024 * 1024,
  });
  if (run.error !== undefined) {
    throw new Error(
      `${tool} cannot be started (${run.error.message}). These tests check against it: apt-get install ${PACKAGE_OF[tool]}`,
    );
  }
  return { status: run.status, out: run.stdout, err: run.stderr };
}

/** A Python without the library is of no use here, and many machines have one. */
const TRIAL: Partial<Record<OutsideTool, readonly string[]>> = {
  '/usr/bin/python3': ['-c', 'import pydicom'],
  scipy: ['-c', 'import scipy.stats, scipy.optimize'],
};

function isThere(tool: OutsideTool): boolean {
  const trial = TRIAL[tool];
  const { error, status } = spawnSync(COMMAND[tool] ?? tool, trial ?? ['--version']);
  return error === undefined && (trial === undefined || status === 0);
}

/**
 * A test that holds us against these programs. In continuous integration it fails where one is missing;
 * elsewhere it is then left out and reported so by name, because a fresh machine needs nothing but Node.
 */
export const itNeeds = (...tools: readonly OutsideTool[]): typeof it =>
  it.skipIf(process.env.CI !== 'true' && !tools.every(isThere)) as typeof it;

/** What a program prints. Throws with what it said when it fails. */
export function outputOf(tool: OutsideTool, args: readonly string[], input?: string): string {
  const { status, out, err } = runTool(tool, args, input);
  if (status !== 0) throw new Error(`${tool} ${args.join(' ')} gave ${status}: ${err}${out}`);
  return out;
}

/** Runs work in a folder of its own that is gone afterwards. */
export function inFolder<Value>(work: (folder: string) => Value): Value {
  const folder = mkdtempSync(join(tmpdir(), 'raybend-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
