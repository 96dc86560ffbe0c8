import { raiseEachRecord } from './each-record.ts';
import type { Migration } from './migrate.ts';

/** What each kind of record has since version 2: nothing was said of it before. */
const SINCE_VERSION_2: Readonly<Record<string, Readonly<Record<string, null>>>> = {
  film: { moment: null },
  injury: { date: null },
  settings: { milestones: null },
};

/** Films say when in the treatment they were taken, the injury may have a date, and a case its own milestones. */
export const toVersion2: Migration = {
  to: 2,
  name: 'films say their moment in the treatment',
  up: (file) =>
    raiseEachRecord(file, (record) => ({
      ...(Object.hasOwn(SINCE_VERSION_2, record.kind) ? SINCE_VERSION_2[record.kind] : {}),
      ...record,
    })),
};
