/**
 * A foreseeable failure is a value with a `kind` and its numbers; a programmer's mistake throws.
 * Callers switch on `kind` exhaustively.
 */
export type Result<Value, Failure extends { readonly kind: string }> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: Failure };

export const success = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({
  ok: true,
  value,
});

export const failure = <Failure extends { readonly kind: string }>(
  error: Failure,
): { readonly ok: false; readonly error: Failure } => ({ ok: false, error });

/** What was thrown, in its own words: the detail of a failure. */
export const reasonOf = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : String(thrown);
