import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SCHEMA_PATH, schemaText } from './write-json-schema.ts';

describe('docs/case-file.schema.json', () => {
  it('is what the code accepts; to write it anew: npx tsx tests/case/write-json-schema.ts', () => {
    expect(JSON.parse(readFileSync(SCHEMA_PATH, 'utf8'))).toEqual(JSON.parse(schemaText()));
  });
});
