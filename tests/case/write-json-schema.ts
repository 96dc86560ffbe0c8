import { writeFileSync } from 'node:fs';
import { caseFileJsonSchema } from '../../src/case/json-schema.ts';

/** Writes docs/case-file.schema.json anew: `npx tsx tests/case/write-json-schema.ts`. */
writeFileSync('docs/case-file.schema.json', `${JSON.stringify(caseFileJsonSchema(), null, 2)}\n`);
