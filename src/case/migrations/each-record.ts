/** A record of any version, as far as a migration has to know one. */
export type AnyRecord = Readonly<Record<string, unknown>> & { readonly kind: string };

/** Where records stand in a case file, the same since version 1; anything else is handed on as it is. */
interface WithRecords {
  readonly case: { readonly records: Readonly<Record<string, AnyRecord>> };
  readonly history?: {
    readonly transactions: readonly {
      readonly steps: readonly { readonly before: AnyRecord | null; readonly after: AnyRecord | null }[];
    }[];
  };
}

/** The file with every record raised, in the case itself and in all that can be undone and redone. */
export function raiseEachRecord(
  file: Readonly<Record<string, unknown>>,
  raise: (record: AnyRecord) => AnyRecord,
): Record<string, unknown> {
  const { case: document, history, ...rest } = file as unknown as WithRecords;
  const raisedOrNull = (record: AnyRecord | null) => (record === null ? null : raise(record));
  const records = Object.entries(document.records).map(([id, record]) => [id, raise(record)]);
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
}
