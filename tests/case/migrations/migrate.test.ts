import { describe, expect, it } from 'vitest';
import { CASE_FILE_VERSION, MIGRATIONS } from '../../../src/case/migrations/current.ts';
import { checkMigrations, type Migration, migrate } from '../../../src/case/migrations/migrate.ts';
import { failed, succeeded } from '../samples.ts';

const step = (to: number, up: Migration['up'] = (file) => ({ ...file, [`seen${to}`]: true })): Migration => ({
  to,
  name: `step to ${to}`,
  up,
});

describe('migrations', () => {
  it('lead to the version written today', () => {
    expect(() => checkMigrations(MIGRATIONS, CASE_FILE_VERSION)).not.toThrow();
  });

  it('are refused with a gap, out of order, or when they end elsewhere', () => {
    expect(() => checkMigrations([step(2), step(3)], 3)).not.toThrow();
    expect(() => checkMigrations([step(2), step(4)], 4)).toThrow(/"step to 4".*stands version 3/);
    expect(() => checkMigrations([step(3)], 3)).toThrow();
    expect(() => checkMigrations([step(3), step(2)], 3)).toThrow();
    expect(() => checkMigrations([step(2)], 3)).toThrow(/lead to version 2, but files are version 3/);
  });

  it('start from the version of the file and keep what they do not know', () => {
    const file = Object.freeze({ format: 'raybend-case', version: 2, more: 'kept' });
    expect(succeeded(migrate(file, 2, [step(2), step(3), step(4)]))).toEqual({
      format: 'raybend-case',
      version: 4,
      more: 'kept',
      seen3: true,
      seen4: true,
    });
  });

  it('name the step that cannot read the file', () => {
    const broken = step(3, () => {
      throw new Error('no films');
    });
    expect(failed(migrate({ version: 1 }, 1, [step(2), broken]))).toEqual({
      kind: 'migration-failed',
      to: 3,
      name: 'step to 3',
      detail: 'no films',
    });
  });
});
