import { describe, expect, it } from 'vitest';
import { findRow, SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { addRow, copySet, editRow, editSet, localId, removeRow } from '../../src/tolerance/local-protocol.ts';

const common = SHIPPED_LIMIT_SETS[0]!;
const local = copySet(common, { id: 'ward-protocol', title: 'Ward protocol' });

const changedSet = (edited: ReturnType<typeof editRow>) => {
  if (!edited.ok) throw new Error(edited.error.message);
  return edited.value;
};

const base = {
  id: 'base-small',
  rays: ['small'],
  regions: ['base'],
  quantity: 'apex-dorsal',
  band: { lo: 10, hi: 15 },
  unit: 'degrees',
  comparison: 'up to',
  note: null,
} as const;

describe('a copy', () => {
  it('is local, begins at revision 1, and names what it was copied from', () => {
    expect(local).toMatchObject({ id: 'ward-protocol', title: 'Ward protocol', local: true, revision: 1 });
    expect(local.source.kind).toBe('local');
    expect(local.source.citation).toContain('Common practice (adult)');
    expect(local.rows).toEqual(common.rows);
  });

  it('of a copy names the first source once', () => {
    expect(copySet(local, { id: 'another', title: 'Another' }).source.citation).toBe(local.source.citation);
  });
});

describe('editing', () => {
  it('changes one row, raises the revision and leaves the original alone', () => {
    const edited = changedSet(editRow(local, 'neck-small', { band: { lo: 45, hi: 45 } }));
    expect(findRow(edited, 'small', 'neck', 'apex-dorsal')?.band).toEqual({ lo: 45, hi: 45 });
    expect(edited.revision).toBe(2);
    const others = (set: typeof local) => set.rows.filter((row) => row.id !== 'neck-small');
    expect(others(edited)).toEqual(others(local));
    expect(findRow(local, 'small', 'neck', 'apex-dorsal')?.band).toEqual({ lo: 50, hi: 60 });
  });

  it('adds and removes rows', () => {
    const added = changedSet(addRow(local, base));
    expect(findRow(added, 'small', 'base', 'apex-dorsal')).toEqual(base);
    expect(findRow(changedSet(removeRow(added, 'base-small')), 'small', 'base', 'apex-dorsal')).toBeNull();
  });

  it.each([
    ['a shipped set', () => editRow(common, 'neck-small', { note: 'x' }), 'shipped-set'],
    ['a row that is not there', () => editRow(local, 'neck-little', { note: 'x' }), 'no-such-row'],
    ['removing a row that is not there', () => removeRow(local, 'neck-little'), 'no-such-row'],
    ['ends exchanged', () => editRow(local, 'neck-small', { band: { lo: 60, hi: 50 } }), 'invalid'],
    ['a second answer to one question', () => addRow(local, { ...base, regions: ['neck'] }), 'invalid'],
    [
      'the last row removed',
      () => removeRow({ ...local, rows: local.rows.slice(0, 1) }, 'neck-index-middle'),
      'invalid',
    ],
  ])('refuses %s', (_, edit, kind) => {
    expect(edit()).toMatchObject({ ok: false, error: { kind } });
  });
});

describe('a local protocol as a whole', () => {
  it('takes another title, population and statement of what it applies to, with the revision raised', () => {
    const edited = changedSet(
      editSet(local, { title: 'Hand clinic', population: 'child', appliesTo: 'measured' }),
    );
    expect(edited).toMatchObject({
      title: 'Hand clinic',
      population: 'child',
      appliesTo: 'measured',
      revision: local.revision + 1,
      rows: local.rows,
    });
  });

  it('keeps a title, and a shipped set keeps everything', () => {
    expect(editSet(local, { title: '  ' })).toMatchObject({
      ok: false,
      error: { kind: 'invalid', message: expect.stringContaining('title: is empty') },
    });
    expect(editSet(common, { title: 'Mine' })).toMatchObject({ ok: false, error: { kind: 'shipped-set' } });
  });

  it('gets an id from its title that is not taken', () => {
    expect(localId('Ward 3 – Hände', [])).toBe('local-ward-3-hande');
    expect(localId('Ward 3', ['local-ward-3', 'local-ward-3-2'])).toBe('local-ward-3-3');
    expect(localId('手', [])).toBe('local-protocol');
    const renamed = copySet(common, { id: localId('Übung!', []), title: 'Übung!' });
    // The schema's own rule for ids is met.
    expect(changedSet(editSet(renamed, { note: 'as agreed' })).id).toBe('local-ubung');
  });
});
