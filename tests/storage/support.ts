import { onTestFinished } from 'vitest';
import { emptyCase } from '../../src/case/apply.ts';
import { caseId } from '../../src/case/document.ts';
import { type Action, act, type CaseState, freshState } from '../../src/case/history.ts';
import { eraseDatabase, openDatabase } from '../../src/storage/database.ts';
import type { Database } from '../../src/storage/rows.ts';
import { injury, putting, succeeded } from '../case/samples.ts';

let opened = 0;

/** A name no other test uses; what is under it is erased when the test ends. */
export function freshName(): string {
  opened += 1;
  const name = `raybend-test-${opened}-${crypto.randomUUID()}`;
  onTestFinished(() => eraseDatabase(name));
  return name;
}

/** A connection that is closed when the test ends. */
export async function connection(name: string): Promise<Database> {
  const database = succeeded(
    await openDatabase(name, { onBlocked: () => undefined, onClosed: () => undefined }),
  );
  onTestFinished(() => database.close());
  return database;
}

export const newState = (id: string): CaseState => freshState(emptyCase(caseId(id)));

/** An action that gives the case a name, and the state after it. */
export function named(
  state: CaseState,
  label: string,
): { readonly action: Action; readonly state: CaseState } {
  const action: Action = { kind: 'do', transaction: putting(state.document, injury({ label })) };
  return { action, state: succeeded(act(state, action)) };
}
