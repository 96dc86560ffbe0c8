import { writeFileSync } from 'node:fs';
import { archiveJsonSchema } from '../../src/case/archive-format.ts';
import { caseFileJsonSchema } from '../../src/case/json-schema.ts';

/** Each schema's file, and what it should hold, as text. */
export const SCHEMAS: readonly (readonly [path: string, text: () => string])[] = [
  ['docs/case-file.schema.json', () => asText(caseFileJsonSchema())],
  ['docs/case-archive.schema.json', () => asText(archiveJsonSchema())],
];

const asText = (schema: object): string => `${JSON.stringify(schema, null, 2)}\n`;

// Run by itself it writes the files anew: npx tsx tests/case/write-json-schema.ts
if (process.argv[1]?.endsWith('write-json-schema.ts')) {
  for (const [path, text] of SCHEMAS) writeFileSync(path, text());
}
