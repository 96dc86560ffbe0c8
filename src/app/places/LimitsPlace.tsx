import '../../ui/look/limits.css';
import { useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { injuryOf } from '../../case/fixed-records.ts';
import { SHIPPED_LIMIT_SETS } from '../../tolerance/limit-sets.ts';
import { PushButton } from '../../ui/controls/controls.tsx';
import { LimitSetSheet } from '../../ui/limits/LimitSetSheet.tsx';
import { LocalProtocol } from '../../ui/limits/LocalProtocol.tsx';
import { SideBySide } from '../../ui/limits/SideBySide.tsx';
import { DISAGREEMENTS } from '../../ui/limits/words.ts';
import { limitActions } from '../limits/limit-actions.ts';
import { allSets } from '../limits/sets.ts';
import type { Shell } from '../shell.ts';

/** Every limit set with its rows and its source; nothing here is merged, because the sources disagree. */
export function LimitsPlace({ shell }: { shell: Shell }) {
  const localSets = useStore(shell.store, (state) => state.localSets);
  const injury = useStore(shell.store, (state) => injuryOf(state.caseState.document));
  const actions = useMemo(() => limitActions(shell), [shell]);
  const [edited, setEdited] = useState<string | null>(null);
  const [imported, setImported] = useState<{ readonly ok: boolean; readonly message: string } | null>(null);
  const input = useRef<HTMLInputElement>(null);
  return (
    <main className="limits">
      <header className="limits__head">
        <h2>Limits and where they come from</h2>
        <p>
          Sources disagree, seldom say which view and which lines they mean, and many descend from one
          another. They are shown here one by one and never merged. Your local protocol and the clinician in
          charge decide.
        </p>
      </header>
      <section className="limits__local" aria-label="Local protocols">
        <h3>Local protocols</h3>
        <p className="aside-note">
          Kept in this browser only. Copy any set and edit the copy, or import one that was exported here or
          on another computer.
        </p>
        <div className="limit-set__actions">
          <PushButton onPress={() => input.current?.click()}>Import a file</PushButton>
        </div>
        <input
          ref={input}
          type="file"
          accept="application/json,.json"
          hidden
          aria-label="Limit set file"
          onChange={async (event) => {
            const field = event.currentTarget;
            const [file] = field.files ?? [];
            if (file !== undefined) setImported(await actions.importFile(file));
            field.value = '';
          }}
        />
        {imported !== null && (
          <p role="status" className={imported.ok ? 'aside-note' : 'row-editor__refused'}>
            {imported.message}
          </p>
        )}
      </section>
      {localSets.map((set) =>
        set.id === edited ? (
          <LocalProtocol key={set.id} set={set} actions={actions} onDone={() => setEdited(null)} />
        ) : (
          <LimitSetSheet key={set.id} set={set} actions={actions} onEdit={setEdited} />
        ),
      )}
      <SideBySide
        key={`${injury.ray} ${injury.region}`}
        limitSets={allSets(localSets)}
        ray={injury.ray}
        region={injury.region}
      />
      <section className="limits__disagree" aria-label="What the sources disagree on">
        <h3>What the sources disagree on</h3>
        <ol>
          {DISAGREEMENTS.map(({ what, how }) => (
            <li key={what}>
              <b>{what}</b> {how}
            </li>
          ))}
        </ol>
      </section>
      {SHIPPED_LIMIT_SETS.map((set) => (
        <LimitSetSheet key={set.id} set={set} actions={actions} onEdit={setEdited} />
      ))}
    </main>
  );
}
