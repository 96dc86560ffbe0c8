import { writeFileSync } from 'node:fs';
import { caseFileJsonSchema } from '../../src/case/json-schema.ts';

export const SCHEMA_PATH = 'docs/case-file.schema.json';

/** What the schema's file should hold, as text. */
export const schemaText = (): string => `${JSON.stringify(caseFileJsonSchema(), null, 2)}\n`;

// Run by itself it writes the file anew: npx tsx tests/case/write-json-schema.ts
if (process.argv[1]?.endsWith('write-json-schema.ts')) writeFileSync(SCHEMA_PATH, schemaText());
