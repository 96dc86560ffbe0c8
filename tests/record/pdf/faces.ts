import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FaceFiles } from '../../../src/record/pdf/faces.ts';

const { resolve } = createRequire(import.meta.url);

const files = (family: string, weight: number, slope: 'normal' | 'italic' = 'normal') =>
  ['latin', 'latin-ext'].map((part) =>
    readFileSync(resolve(`@fontsource/${family}/files/${family}-${part}-${weight}-${slope}.woff`)),
  );

/** The faces of the app's own pages, from the packages that the app serves them from. */
export const FACES: FaceFiles = {
  sans: files('source-sans-3', 400),
  sansBold: files('source-sans-3', 600),
  serif: files('source-serif-4', 400),
  serifBold: files('source-serif-4', 600),
  serifItalic: files('source-serif-4', 400, 'italic'),
};
