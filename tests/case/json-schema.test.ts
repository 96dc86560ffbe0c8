import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SCHEMAS } from './write-json-schema.ts';

describe('the schemas in docs/', () => {
  it.each(SCHEMAS)(
    '%s is what the code accepts; to write it anew: npx tsx tests/case/write-json-schema.ts',
    (path, text) => {
      expect(JSON.parse(readFileSync(path, 'utf8'))).toEqual(JSON.parse(text()));
    },
  );
});
