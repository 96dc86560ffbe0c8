import { z } from 'zod';
import { caseFileSchema } from './schema.ts';

/**
 * The JSON Schema of a case file, for those who read or write one with other tools. It says what each field
 * holds; what the fields must have to do with one another is in docs/case-file.md.
 */
export const caseFileJsonSchema = (): object =>
  z.toJSONSchema(caseFileSchema, { target: 'draft-2020-12', io: 'input' });
