import { describe, expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { ProtocolKeeper } from '../../src/app/keeper.ts';
import { limitActions } from '../../src/app/limits/limit-actions.ts';
import { loadLocalSets } from '../../src/app/limits/load-local-sets.ts';
import type { Shell } from '../../src/app/shell.ts';
import { type AppState, initialState } from '../../src/app/state.ts';
import { caseId } from '../../src/case/document.ts';
import { serializeLimitSet } from '../../src/tolerance/limit-set-file.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { editRow } from '../../src/tolerance/local-protocol.ts';

const [common, textbook] = SHIPPED_LIMIT_SETS;
if (common === undefined || textbook === undefined) throw new Error('no shipped sets');

function standing(kept: readonly unknown[] = []) {
  const rows = new Map<string, unknown>(kept.map((content, index) => [String(index), content]));
  const protocols: ProtocolKeeper = {
    limitSets: async () => [...rows.values()],
    keepLimitSet: async (id, content) => {
      rows.set(id, content);
      return true;
    },
    removeLimitSet: async (id) => rows.delete(id),
  };
  const store = createStore<AppState>(() => initialState(caseId('case-1'), 'system'));
  const shell = { store, protocols } as unknown as Shell;
  return { shell, store, rows, actions: limitActions(shell) };
}

const fileOf = (text: string, name = 'ward.json') => new File([text], name);

describe('local protocols in the app', () => {
  it('are copied under ids that are not taken, and kept', async () => {
    const { actions, store, rows } = standing();
    const first = actions.copy(common);
    const second = actions.copy(common);
    expect(new Set([first, second, ...SHIPPED_LIMIT_SETS.map(({ id }) => id)]).size).toBe(
      SHIPPED_LIMIT_SETS.length + 2,
    );
    expect(store.getState().localSets.every(({ local }) => local)).toBe(true);
    expect([...rows.keys()].toSorted()).toEqual([first, second].toSorted());
  });

  it('keep a valid edit, and say why another is refused', () => {
    const { actions, store } = standing();
    const id = actions.copy(common);
    const copied = () => store.getState().localSets.find((set) => set.id === id) ?? common;
    expect(actions.save(editRow(copied(), 'neck-small', { band: { lo: 30, hi: 35 } }))).toBeNull();
    expect(copied().revision).toBe(2);
    const refused = actions.save(editRow(copied(), 'neck-small', { band: { lo: 40, hi: 35 } }));
    expect(refused).toContain('lower end above its upper end');
    expect(copied().revision).toBe(2);
    actions.remove(id);
    expect(store.getState().localSets).toEqual([]);
  });

  it('come in from a file, in place of the revision that was here, or not at all', async () => {
    const { actions, store } = standing();
    const id = actions.copy(common);
    const [copied] = store.getState().localSets;
    if (copied === undefined) throw new Error('nothing was copied');
    const newer = { ...copied, title: 'From the other ward', revision: 7 };
    const taken = await actions.importFile(fileOf(serializeLimitSet(newer)));
    expect(taken).toEqual({ ok: true, message: expect.stringContaining('in place of its revision 1') });
    expect(store.getState().localSets.map((set) => [set.id, set.revision])).toEqual([[id, 7]]);

    const shipped = await actions.importFile(fileOf(serializeLimitSet(textbook)));
    expect(shipped).toEqual({ ok: false, message: expect.stringContaining('that ships and cannot change') });
    const broken = await actions.importFile(fileOf('{'));
    expect(broken).toEqual({ ok: false, message: expect.stringContaining('ward.json is not JSON') });
    expect(store.getState().localSets).toHaveLength(1);
  });

  it('are brought back at the start; one that does not validate is said and left', async () => {
    const { shell, store } = standing([
      {
        ...common,
        id: 'local-ward',
        title: 'Ward',
        source: { ...common.source, kind: 'local' },
        local: true,
      },
      { ...common, id: 'local-broken', rows: [] },
    ]);
    await loadLocalSets(shell);
    expect(store.getState().localSets.map(({ id }) => id)).toEqual(['local-ward']);
    expect(store.getState().messages[0]?.text).toContain('rows: has no rows');
  });
});
