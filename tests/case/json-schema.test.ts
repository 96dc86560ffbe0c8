import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { caseFileJsonSchema } from '../../src/case/json-schema.ts';

describe('docs/case-file.schema.json', () => {
  it('is what the code accepts; to write it anew: npx tsx tests/case/write-json-schema.ts', () => {
    const written = JSON.parse(readFileSync('docs/case-file.schema.json', 'utf8'));
    expect(written).toEqual(JSON.parse(JSON.stringify(caseFileJsonSchema())));
  });
});
