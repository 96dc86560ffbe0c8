import { raiseEachRecord } from './each-record.ts';
import type { Migration } from './migrate.ts';

/** Pictures say what they show, since a photograph of the fist may stand among the films; until now all showed bones. */
export const toVersion3: Migration = {
  to: 3,
  name: 'films say whether they show bones or the fist',
  up: (file) =>
    raiseEachRecord(file, (record) => (record.kind === 'film' ? { shows: 'bones', ...record } : record)),
};
