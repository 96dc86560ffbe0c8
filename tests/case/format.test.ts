import { expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { formatReading } from '../../src/case/format.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { sampleCase } from '../record/sample.ts';
import { caseOf, settings } from './samples.ts';

it('writes a reading and the sentence of its limit with one number', () => {
  const records = Object.values(sampleCase().records).filter(({ kind }) => kind !== 'settings');
  const document = caseOf(
    ...records,
    settings({ limitSetIds: SHIPPED_LIMIT_SETS.map(({ id }) => id), normal: 'zero' }),
  );
  const { readings, comparisons } = assess(document, SHIPPED_LIMIT_SETS);
  const numbers = readings.flatMap((reading) =>
    reading.state === 'known' ? [[reading.id, formatReading(reading).value] as const] : [],
  );
  const spoken = comparisons.filter(
    ({ outcome, reason }) => outcome !== 'no limit on file' && reason !== 'deformity-missing',
  );
  const units = new Set(spoken.map(({ row }) => row?.unit));
  expect([...units].sort()).toEqual(['degrees', 'millimetres']);
  for (const { readingId, words } of spoken) {
    const [, value] = numbers.find(([id]) => id === readingId) ?? [];
    expect(words).toContain(value);
  }
});
