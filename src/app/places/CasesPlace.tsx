import '../../ui/look/cases.css';
import { useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { conflictGroups } from '../../case/conflict-groups.ts';
import type { CaseSummary } from '../../storage/summaries.ts';
import type { BenchActions } from '../../ui/actions.ts';
import { CaseTable, type CaseTableActions } from '../../ui/cases/CaseTable.tsx';
import { ConflictList } from '../../ui/cases/ConflictList.tsx';
import { StorageNote } from '../../ui/cases/StorageNote.tsx';
import { Choice, PushButton } from '../../ui/controls/controls.tsx';
import { deleteCase, openCase, renameCase, settle, takeOther } from '../cases/case-list-actions.ts';
import { exportCases } from '../cases/export-cases.ts';
import type { Shell } from '../shell.ts';
import type { SaveState } from '../state.ts';

const SAVED_WORDS: Readonly<Record<SaveState['kind'], string>> = {
  saved: 'Everything done so far is kept.',
  saving: 'The last change is being kept…',
  'not-saved': 'The last change is not kept yet.',
};

export function CasesPlace({ shell, actions }: { shell: Shell; actions: BenchActions }) {
  const { store } = shell;
  const { cases, roomUsed } = useCases(shell);
  const [search, setSearch] = useState('');
  const [films, setFilms] = useState<'left-out' | 'included'>('left-out');
  const withFilms = films === 'included';
  const document = useStore(store, (state) => state.caseState.document);
  const pending = useStore(store, (state) => state.conflicts);
  const promise = useStore(store, (state) => state.permanence);
  const saved = useStore(store, (state) => state.saved.kind);

  const tableActions = useMemo((): CaseTableActions => {
    const toBench = (opened: boolean) => {
      if (opened) store.setState({ place: 'bench' });
    };
    return {
      open: (id) => void openCase(shell, id).then(toBench),
      rename: (id, label) => void renameCase(shell, id, label),
      remove: (id) => void deleteCase(shell, id),
      exportOne: (id) => void exportCases(shell, [id], withFilms),
    };
  }, [shell, store, withFilms]);
  const found = cases?.filter(({ label }) => label.toLowerCase().includes(search.trim().toLowerCase())) ?? [];
  const begin = (what: () => void) => {
    what();
    store.setState({ place: 'bench' });
  };
  return (
    <main className="cases">
      <div className="cases__list">
        <header className="cases__head">
          <h2>Cases</h2>
          <search>
            <input
              type="search"
              className="text-input"
              aria-label="Search by label"
              placeholder="Search by label"
              value={search}
              onChange={(event) => setSearch(event.currentTarget.value)}
            />
          </search>
        </header>
        {pending.map((one) => (
          <ConflictList
            key={one.copyId}
            label={one.label}
            groups={conflictGroups(document, one.conflicts)}
            onTake={(groups) => void takeOther(shell, one, groups)}
            onKeep={(groups) => settle(shell, one, groups)}
          />
        ))}
        {found.length > 0 && (
          <CaseTable
            rows={found.map((row) => ({
              ...row,
              films: row.filmHashes.length,
              onScreen: row.id === document.id,
            }))}
            actions={tableActions}
          />
        )}
        <p className="cases__count" role="status">
          {countWords(cases, found.length, search.trim())}
        </p>
      </div>
      <aside className="cases__side">
        <section aria-label="Begin or take in">
          <h3>Begin or take in</h3>
          <div className="cases__buttons">
            <PushButton onPress={() => begin(actions.newCase)}>New case</PushButton>
            <PushButton onPress={() => begin(actions.openSample)}>Sample case</PushButton>
            <ImportButton actions={actions} />
          </div>
          <p>
            <small>
              Takes case files (JSON) and archives (ZIP). A case that is here already is put together with the
              one in the file; nothing of either is lost.
            </small>
          </p>
        </section>
        <section aria-label="Take along">
          <h3>Take along</h3>
          <Choice
            label="Films in exported files"
            options={[
              { value: 'left-out', name: 'Left out' },
              { value: 'included', name: 'Included' },
            ]}
            value={films}
            onChange={setFilms}
          />
          <div className="cases__buttons">
            <PushButton
              disabled={cases === null || cases.length === 0}
              onPress={() => void exportCases(shell, cases?.map(({ id }) => id) ?? [], withFilms)}
            >
              Export all cases
            </PushButton>
          </div>
          <p>
            <small>
              {withFilms
                ? 'One ZIP file with each case and its films: a safe copy. The films hold whatever their own files say of a person, commonly name, birth date and hospital. Keep it as you keep the films.'
                : 'One ZIP file with each case and no film, nor anything that names the patient in one. Your own names of the cases are in it.'}
            </small>
          </p>
        </section>
        <StorageNote
          promise={promise}
          roomUsed={roomUsed}
          saved={SAVED_WORDS[saved]}
          onAsk={() => void shell.keeper.askToStay()}
        />
      </aside>
    </main>
  );
}

/** The list and the room it takes, read anew whenever something was written. */
function useCases({ store, keeper }: Shell) {
  const [cases, setCases] = useState<readonly CaseSummary[] | null>(null);
  const [roomUsed, setRoomUsed] = useState<number | null>(null);
  const listing = useStore(store, (state) => state.listing);
  const saved = useStore(store, (state) => state.saved.kind);
  // biome-ignore lint/correctness/useExhaustiveDependencies: both say that something was written
  useEffect(() => {
    let current = true;
    void keeper.list().then((list) => current && setCases(list));
    void keeper.roomUsed().then((bytes) => current && setRoomUsed(bytes));
    return () => {
      current = false;
    };
  }, [keeper, listing, saved]);
  return { cases, roomUsed };
}

function countWords(cases: readonly CaseSummary[] | null, found: number, search: string): string {
  if (cases === null) return 'Reading the list…';
  const all = cases.length === 1 ? '1 case' : `${cases.length} cases`;
  if (search === '')
    return cases.length === 0 ? 'No case is kept on this computer yet.' : `${all} on this computer.`;
  return found === 0 ? `No label of ${all} has “${search}” in it.` : `${found} of ${all}.`;
}

function ImportButton({ actions }: { actions: BenchActions }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <PushButton onPress={() => input.current?.click()}>Import</PushButton>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        accept=".zip,.json,application/zip,application/json"
        aria-label="Case files and archives"
        onChange={(event) => {
          actions.openFiles([...(event.currentTarget.files ?? [])], { hand: 'injured', day: null });
          event.currentTarget.value = '';
        }}
      />
    </>
  );
}
