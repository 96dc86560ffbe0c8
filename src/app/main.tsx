import '@fontsource/source-sans-3/latin-400.css';
import '@fontsource/source-sans-3/latin-600.css';
import '@fontsource/source-serif-4/latin-400-italic.css';
import '@fontsource/source-serif-4/latin-600.css';
import '../ui/look/tokens.css';
import '../ui/look/base.css';
import '../ui/look/controls.css';
import '../ui/look/app.css';
import '../ui/look/bench.css';
import '../ui/look/form.css';
import '../ui/look/injury.css';
import '../ui/look/outcome.css';
import '../ui/look/strip.css';
import '../ui/look/messages.css';
import '../ui/look/bench-narrow.css';
import '../ui/look/lists.css';
import '../ui/look/worksheet.css';
import '../ui/look/against-limits.css';
import '../ui/look/beside.css';
import '../ui/look/help.css';
import '../ui/look/hints.css';
import '../ui/look/opening.css';
import '../ui/look/forced-colors.css';
import { createRoot } from 'react-dom/client';
import { createStore } from 'zustand/vanilla';
import { caseId } from '../case/document.ts';
import { App } from './App.tsx';
import { showCase } from './case-file-actions.ts';
import { WorkerDecoder } from './films/decoder.ts';
import { FoundFilms } from './films/found-films.ts';
import { closedHints } from './hints.ts';
import { inTurn } from './in-turn.ts';
import { loadLocalSets } from './limits/load-local-sets.ts';
import { cannotStart } from './needs.ts';
import { keepForOffline } from './offline.ts';
import { addSampleFilms, beginSample } from './sample.ts';
import { type Shell, say } from './shell.ts';
import { type AppState, initialState } from './state.ts';
import { StorageKeeper } from './storage-keeper.ts';
import { keptTheme } from './theme.ts';

/** Puts the app together and starts it. */
function start(root: HTMLElement): void {
  const newId = () => crypto.randomUUID();
  const store = createStore<AppState>(() => ({
    ...initialState(caseId(newId()), keptTheme()),
    closedHints: closedHints(),
  }));
  const now = () => new Date().toISOString();
  const keeper = new StorageKeeper(
    store,
    {
      say: (text) => say(shell, text),
      changedElsewhere: (text) =>
        say(shell, text, {
          name: 'Put both together',
          run: () => void import('./cases/join.ts').then(({ joinOtherTab }) => joinOtherTab(shell)),
        }),
    },
    now,
  );
  const shell: Shell = {
    store,
    now,
    newId,
    decoder: new WorkerDecoder(),
    found: new FoundFilms(),
    keeper,
    protocols: keeper,
  };

  createRoot(root).render(<App shell={shell} />);

  void begin(shell);
  void keepForOffline(shell);
}

/** What was on screen last comes back; the first start opens the sample case. */
async function begin(shell: Shell): Promise<void> {
  // From the first moment: a case that somebody begins meanwhile takes its place after it, not before.
  const sample = await inTurn(shell, async () => {
    await loadLocalSets(shell);
    const last = await shell.keeper.last();
    if (last === null) return beginSample(shell);
    showCase(shell, last);
    return null;
  });
  if (sample !== null) await addSampleFilms(shell, sample);
}

const root = document.getElementById('root')!;
const sentence = cannotStart(globalThis);
if (sentence === null) start(root);
else root.append(noStart(sentence));

/** Without React, which may be what the browser is too old for. */
function noStart(sentence: string): HTMLElement {
  const main = document.createElement('main');
  main.className = 'no-start';
  const name = document.createElement('h1');
  name.textContent = 'Raybend';
  const why = document.createElement('p');
  why.textContent = sentence;
  main.append(name, why);
  return main;
}
