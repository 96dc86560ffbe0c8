import { lazy, Suspense, useEffect, useMemo } from 'react';
import { useStore } from 'zustand';
import { markedFilms } from '../case/film-marks.ts';
import { canRedo, canUndo, redoName, undoName } from '../case/history.ts';
import type { BenchActions } from '../ui/actions.ts';
import { PushButton } from '../ui/controls/controls.tsx';
import { Header } from '../ui/Header.tsx';
import { benchActions } from './bench-actions.ts';
import { useFilesAndKeys } from './files-and-keys.ts';
import { FilmsFound } from './films/FilmsFound.tsx';
import { KeysHost } from './KeysHost.tsx';
import { BenchPlace } from './places/BenchPlace.tsx';
import { stopPlacing } from './placing-actions.ts';
import { putAway, type Shell } from './shell.ts';
import type { PlaceId } from './state.ts';
import { applyTheme, keepTheme } from './theme.ts';

const PLACES: readonly { id: PlaceId; name: string }[] = [
  { id: 'bench', name: 'Bench' },
  { id: 'course', name: 'Course' },
  { id: 'classroom', name: 'Classroom' },
  { id: 'cases', name: 'Cases' },
  { id: 'limits', name: 'Limits' },
];

/** Fetched when they are first entered: measuring a film needs none of them. */
const ClassroomPlace = lazy(() => import('./places/ClassroomPlace.tsx'));
const CoursePlace = lazy(() => import('./places/CoursePlace.tsx').then((m) => ({ default: m.CoursePlace })));
const CasesPlace = lazy(() => import('./places/CasesPlace.tsx').then((m) => ({ default: m.CasesPlace })));
const LimitsPlace = lazy(() => import('./places/LimitsPlace.tsx').then((m) => ({ default: m.LimitsPlace })));

/** The whole page: header, the place that is shown, messages, and what opens over all places. */
export function App({ shell }: { shell: Shell }) {
  const { store } = shell;
  const place = useStore(store, (state) => state.place);
  const theme = useStore(store, (state) => state.theme);
  const actions = useMemo(() => benchActions(shell), [shell]);
  useEffect(() => applyTheme(theme), [theme]);
  useFilesAndKeys(shell, actions);
  return (
    <div className="app">
      <Header
        places={PLACES}
        place={place}
        onPlace={(id) => {
          stopPlacing(shell);
          store.setState({ place: id as PlaceId });
        }}
        theme={theme}
        onTheme={(next) => {
          keepTheme(next);
          store.setState({ theme: next });
        }}
      >
        {/* In a class nothing of the case on the bench is on screen. */}
        {place !== 'classroom' && <CaseState shell={shell} onUndo={actions.undo} onRedo={actions.redo} />}
      </Header>
      <Suspense fallback={<main className="place-wait">This page is being opened…</main>}>
        <Place place={place} shell={shell} actions={actions} />
      </Suspense>
      <Messages shell={shell} />
      <FilmsFound shell={shell} />
      <KeysHost shell={shell} />
    </div>
  );
}

function Place({ place, shell, actions }: { place: PlaceId; shell: Shell; actions: BenchActions }) {
  switch (place) {
    case 'bench':
      return <BenchPlace shell={shell} actions={actions} />;
    case 'course':
      return <CoursePlace shell={shell} actions={actions} />;
    case 'classroom':
      return <ClassroomPlace shell={shell} />;
    case 'cases':
      return <CasesPlace shell={shell} actions={actions} />;
    case 'limits':
      return <LimitsPlace shell={shell} />;
  }
}

function CaseState({ shell, onUndo, onRedo }: { shell: Shell; onUndo: () => void; onRedo: () => void }) {
  const history = useStore(shell.store, (state) => state.caseState.history);
  const films = useStore(shell.store, (state) => markedFilms(state.caseState.document).length);
  const saved = useStore(shell.store, (state) => state.saved);
  const words = {
    saved: (
      <>
        Saved<span className="header__where"> on this computer only</span>
      </>
    ),
    saving: 'Saving…',
    'not-saved': `Not saved: ${saved.kind === 'not-saved' ? saved.why : ''}`,
  }[saved.kind];
  return (
    <>
      <span className="header__saved">
        {words}
        <span className="header__where">
          {' '}
          · {films} {films === 1 ? 'film' : 'films'}
        </span>
      </span>
      {canUndo(history) && (
        <PushButton quiet onPress={onUndo}>
          {undoName(history)}
        </PushButton>
      )}
      {canRedo(history) && (
        <PushButton quiet onPress={onRedo}>
          {redoName(history)}
        </PushButton>
      )}
    </>
  );
}

function Messages({ shell }: { shell: Shell }) {
  const messages = useStore(shell.store, (state) => state.messages);
  return (
    <div className="messages" role="log" aria-label="Messages">
      {messages.map((message) => (
        <div key={message.id} className="message">
          <span>{message.text}</span>
          {message.action !== undefined && (
            <PushButton
              onPress={() => {
                putAway(shell, message.id);
                message.action?.run();
              }}
            >
              {message.action.name}
            </PushButton>
          )}
          <PushButton quiet onPress={() => putAway(shell, message.id)} label="Close this message">
            Close
          </PushButton>
        </div>
      ))}
    </div>
  );
}
