import { expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { type AppState, initialState } from '../../src/app/state.ts';
import { StorageKeeper } from '../../src/app/storage-keeper.ts';
import { change, emptyCase } from '../../src/case/apply.ts';
import { caseId } from '../../src/case/document.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { act, freshState } from '../../src/case/history.ts';
import { DATABASE_NAME, eraseDatabase } from '../../src/storage/database.ts';
import { AT, succeeded } from '../case/samples.ts';

it('keeps what is done to a case while another one takes its place', async () => {
  await eraseDatabase(DATABASE_NAME);
  const said: string[] = [];
  const say = (text: string) => void said.push(text);
  const store = createStore<AppState>(() => initialState(caseId('none'), 'system'));
  const keeper = new StorageKeeper(store, { say, changedElsewhere: say }, () => AT);
  const whole = (id: string) => ({ state: freshState(emptyCase(caseId(id))), unknownFields: {} });
  const first = whole('first');
  await keeper.begin(first);

  const { document } = first.state;
  const transaction = change(document, 'label the case', AT, { ...injuryOf(document), label: 'Left ring' });
  const action = { kind: 'do', transaction } as const;
  const begun = keeper.begin(whole('second'));
  keeper.keep(succeeded(act(first.state, action)), action);
  await begun;

  const kept = succeeded(await keeper.read('first'));
  expect(injuryOf(kept.state.document).label).toBe('Left ring');
  expect(succeeded(await keeper.read('second')).state.document.id).toBe('second');
  expect(said).toEqual([]);
  expect(store.getState().saved).toEqual({ kind: 'saved' });
});
