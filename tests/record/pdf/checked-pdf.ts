import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { inFolder, itNeeds, outputOf, runTool } from '../../outside-tools.ts';
import { expectNoIdentity } from '../identities.ts';

/** For tests that use what is below. */
export const itWithPdfTools: ReturnType<typeof itNeeds> = itNeeds('qpdf', 'pdfinfo', 'pdffonts', 'pdftotext');

/** What independent programs say of a PDF: qpdf 11, poppler 22 (Debian bookworm). */
export interface ReadPdf {
  /** Its text, each run of white space as one space. */
  readonly text: string;
  readonly pages: number;
  /** Keys of its document information that have a value. */
  readonly info: Readonly<Record<string, string>>;
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean; readonly subset: boolean }[];
  /** Everything in it, with every stream unpacked. */
  readonly unpacked: Uint8Array;
}

/** Checks that a PDF is sound and reads it. */
export function readPdf(bytes: Uint8Array): ReadPdf {
  return inFolder((folder) => {
    const path = join(folder, 'page.pdf');
    const plain = join(folder, 'plain.pdf');
    writeFileSync(path, bytes);
    const check = runTool('qpdf', ['--check', path]);
    expect(`${check.out}${check.err}`).toContain('No syntax or stream encoding errors');
    expect(check.status).toBe(0);
    outputOf('qpdf', ['--qdf', '--object-streams=disable', path, plain]);
    const info = Object.fromEntries(
      outputOf('pdfinfo', [path])
        .split('\n')
        .flatMap((line) => {
          const [, key, value] = /^([^:]+):\s*(.*)$/.exec(line) ?? [];
          return key === undefined || value === undefined ? [] : [[key, value] as const];
        }),
    );
    const fonts = outputOf('pdffonts', [path])
      .split('\n')
      .slice(2)
      .filter((line) => line.trim() !== '')
      .map((line) => {
        const [embedded, , unicode] = line.slice(72).trim().split(/\s+/);
        return { name: line.split(' ')[0]!, embedded: embedded === 'yes', subset: unicode === 'yes' };
      });
    return {
      text: outputOf('pdftotext', ['-layout', path, '-']).replace(/\s+/g, ' '),
      pages: Number(info.Pages),
      info,
      fonts,
      unpacked: readFileSync(plain),
    };
  });
}

/** Text in reading order as poppler finds it, one space between words: a column at a time. */
export const flowingText = (bytes: Uint8Array): string =>
  inFolder((folder) => {
    const path = join(folder, 'page.pdf');
    writeFileSync(path, bytes);
    return outputOf('pdftotext', ['-raw', path, '-']).replace(/\s+/g, ' ');
  });

/** A PDF that says which program made it and nothing of anybody, and that can be read aloud. */
export function expectPlainPdf(bytes: Uint8Array): ReadPdf {
  const pdf = readPdf(bytes);
  for (const key of ['Title', 'Author', 'Subject', 'Keywords', 'Creator', 'CreationDate', 'ModDate']) {
    expect(pdf.info[key], key).toBeUndefined();
  }
  expect(pdf.info).toMatchObject({ Producer: 'Raybend', 'Metadata Stream': 'no', JavaScript: 'no' });
  expect(pdf.fonts.length).toBeGreaterThan(2);
  for (const { name, embedded, subset } of pdf.fonts)
    expect([name, embedded, subset]).toEqual([name, true, true]);
  expectNoIdentity(bytes);
  expectNoIdentity(pdf.unpacked);
  expectNoIdentity(pdf.text);
  return pdf;
}

/**
 * A text without any white space: what is thinner than a space is lost on reading, and a line may end anywhere.
 */
export const unspaced = (text: string): string => text.replace(/\s+/g, '');
