import type { Database } from './rows.ts';

/** One step up in which stores the database has. */
export interface Upgrade {
  /** The version it makes; it starts from the one before, 0 being no database at all. */
  readonly to: number;
  readonly run: (database: Database) => void;
}

/** Every step from nothing to today's version, in order. A step that has shipped is never changed. */
export const UPGRADES: readonly Upgrade[] = [
  {
    to: 1,
    run(database) {
      database.createObjectStore('cases', { keyPath: 'id' });
      database.createObjectStore('summaries', { keyPath: 'id' });
      database.createObjectStore('transactions', { keyPath: ['caseId', 'sequence'] });
      database.createObjectStore('films', { keyPath: 'sha256' });
    },
  },
  {
    to: 2,
    run(database) {
      database.createObjectStore('limitSets', { keyPath: 'id' });
    },
  },
];

/** Throws unless the steps are numbered 1, 2, 3, … A gap is a mistake of ours. */
export function checkUpgrades(upgrades: readonly Upgrade[]): void {
  upgrades.forEach(({ to }, index) => {
    if (to !== index + 1) throw new Error(`Upgrade to ${to} stands where upgrade to ${index + 1} belongs.`);
  });
}
