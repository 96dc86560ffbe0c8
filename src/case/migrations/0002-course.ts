import type { Migration } from './migrate.ts';

/** Version 1, as far as this step looks into it; anything else in it is handed on as it is. */
interface Version1 {
  readonly case: { readonly records: Readonly<Record<string, Version1Record>> };
  readonly history?: {
    readonly transactions: readonly {
      readonly steps: readonly {
        readonly before: Version1Record | null;
        readonly after: Version1Record | null;
      }[];
    }[];
  };
}
type Version1Record = Readonly<Record<string, unknown>> & { readonly kind: string };

/** What each kind of record has since version 2: nothing was said of it before. */
const SINCE_VERSION_2: Readonly<Record<string, Readonly<Record<string, null>>>> = {
  film: { moment: null },
  injury: { date: null },
  settings: { milestones: null },
};

const raised = (record: Version1Record): Version1Record => ({
  ...(Object.hasOwn(SINCE_VERSION_2, record.kind) ? SINCE_VERSION_2[record.kind] : {}),
  ...record,
});

const raisedOrNull = (record: Version1Record | null): Version1Record | null =>
  record === null ? null : raised(record);

/** Films say when in the treatment they were taken, the injury may have a date, and a case its own milestones. */
export const toVersion2: Migration = {
  to: 2,
  name: 'films say their moment in the treatment',
  up(file) {
    const { case: document, history, ...rest } = file as unknown as Version1;
    const records = Object.entries(document.records).map(([id, record]) => [id, raised(record)]);
    return {
      ...rest,
      case: { ...document, records: Object.fromEntries(records) },
      ...(history === undefined
        ? {}
        : {
            history: {
              ...history,
              transactions: history.transactions.map((transaction) => ({
                ...transaction,
                steps: transaction.steps.map((step) => ({
                  ...step,
                  before: raisedOrNull(step.before),
                  after: raisedOrNull(step.after),
                })),
              })),
            },
          }),
    };
  },
};
