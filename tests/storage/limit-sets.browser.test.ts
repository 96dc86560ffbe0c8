import { describe, expect, it } from 'vitest';
import { listLimitSets, putLimitSet, removeLimitSet } from '../../src/storage/limit-sets.ts';
import { failed, succeeded } from '../case/samples.ts';
import { connection, freshName } from './support.ts';

describe('local protocols', () => {
  it('are kept under their id, replaced and removed', async () => {
    const database = await connection(freshName());
    succeeded(await putLimitSet(database, { id: 'ward', file: { revision: 1 } }));
    succeeded(await putLimitSet(database, { id: 'clinic', file: { revision: 1 } }));
    succeeded(await putLimitSet(database, { id: 'ward', file: { revision: 2 } }));
    expect(succeeded(await listLimitSets(database))).toEqual([
      { id: 'clinic', file: { revision: 1 } },
      { id: 'ward', file: { revision: 2 } },
    ]);
    succeeded(await removeLimitSet(database, 'ward'));
    succeeded(await removeLimitSet(database, 'never there'));
    expect(succeeded(await listLimitSets(database)).map(({ id }) => id)).toEqual(['clinic']);
  });

  it('say when this tab keeps nothing any longer', async () => {
    const database = await connection(freshName());
    database.close();
    expect(failed(await putLimitSet(database, { id: 'ward', file: {} })).kind).toBe('connection-closed');
    expect(failed(await listLimitSets(database)).kind).toBe('connection-closed');
  });
});
