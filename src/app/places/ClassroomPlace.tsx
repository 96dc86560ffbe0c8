import '../../ui/look/classroom.css';
import '../../ui/look/film-maker.css';
import '../../ui/look/lessons.css';
import '../../ui/look/exercises.css';
import '../../ui/look/agreement.css';
import '../../ui/look/demonstration.css';
import '../../ui/look/classroom-narrow.css';
import '../../ui/look/classroom-print.css';
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { formatOf } from '../../classroom/file-head.ts';
import { AgreementPage } from '../classroom/AgreementPage.tsx';
import { DemonstrationPage } from '../classroom/DemonstrationPage.tsx';
import { ExerciseBench } from '../classroom/ExerciseBench.tsx';
import { ExercisesPage } from '../classroom/ExercisesPage.tsx';
import { FilmsPage } from '../classroom/FilmsPage.tsx';
import { LessonsPage } from '../classroom/LessonsPage.tsx';
import { type Room, type RoomPage, roomOf } from '../classroom/room.ts';
import { openRoomFile } from '../classroom/room-actions.ts';
import { stopPlacing } from '../placing-actions.ts';
import { perform, type Shell, say } from '../shell.ts';

const PAGES: readonly { readonly id: RoomPage; readonly name: string }[] = [
  { id: 'lessons', name: 'Lessons' },
  { id: 'exercises', name: 'Exercises' },
  { id: 'films', name: 'Make films' },
  { id: 'demonstration', name: 'Demonstration' },
  { id: 'agreement', name: 'Agreement' },
];

/** Invented films to learn, to teach and to study with. Loaded when it is first entered. */
export default function ClassroomPlace({ shell }: { readonly shell: Shell }) {
  const room = roomOf(shell);
  const page = useStore(room.store, (state) => state.page);
  const running = useStore(room.store, (state) => state.running);
  useRoomKeysAndFiles(room);
  useHandedFile(room);
  if (running !== null) {
    return (
      <main className="classroom classroom--measuring">
        <ExerciseBench key={running.session.exercise.id} room={room} running={running} />
      </main>
    );
  }
  return (
    <main className="classroom">
      <nav className="classroom__pages" aria-label="Classroom">
        {PAGES.map(({ id, name }) => (
          <a
            key={id}
            href={`#${id}`}
            aria-current={id === page ? 'page' : undefined}
            onClick={(event) => {
              event.preventDefault();
              room.store.setState({ page: id, ...(id === 'lessons' ? { lessonId: null } : {}) });
            }}
          >
            {name}
          </a>
        ))}
      </nav>
      <div className="classroom__page" data-page={page}>
        <Page room={room} page={page} />
      </div>
    </main>
  );
}

function Page({ room, page }: { readonly room: Room; readonly page: RoomPage }) {
  switch (page) {
    case 'lessons':
      return <LessonsPage room={room} />;
    case 'films':
      return <FilmsPage room={room} />;
    case 'exercises':
      return <ExercisesPage room={room} />;
    case 'demonstration':
      return <DemonstrationPage room={room} />;
    case 'agreement':
      return <AgreementPage room={room} />;
  }
}

/** A set, study or list of attempts that was opened elsewhere in the app. */
function useHandedFile(room: Room): void {
  const handed = useStore(room.app.store, (state) => state.handed);
  useEffect(() => {
    if (handed === null) return;
    room.app.store.setState({ handed: null });
    openRoomFile(room, handed.text, handed.name);
  }, [room, handed]);
}

/**
 * Undo, Escape and dropped files belong to the exercise here and not to the case on the bench, which is out of sight:
 * they are taken before the bench's own listeners see them.
 */
function useRoomKeysAndFiles(room: Room): void {
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      const letter = event.key.toLowerCase();
      const isUndo = (event.ctrlKey || event.metaKey) && (letter === 'z' || letter === 'y');
      if (!isUndo && event.key !== 'Escape') return;
      const { running } = room.store.getState();
      const typing = event.target instanceof HTMLElement && event.target.closest('input, textarea') !== null;
      if (event.key === 'Escape') {
        const exercise = running?.session.shell;
        if (exercise === undefined || exercise.store.getState().task === null) return;
        event.preventDefault();
        stopPlacing(exercise);
        return;
      }
      if (typing) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      if (running === null) return;
      const { shell } = running.session;
      const redo = letter === 'y' || event.shiftKey;
      const { history } = shell.store.getState().caseState;
      const possible = redo ? history.position < history.transactions.length : history.position > 0;
      if (possible) perform(shell, { kind: redo ? 'redo' : 'undo', at: shell.now() });
    };
    const take = (event: DragEvent | ClipboardEvent, files: readonly File[]) => {
      if (files.length === 0) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      for (const file of files) void openDropped(room, file);
    };
    const drop = (event: DragEvent) => take(event, [...(event.dataTransfer?.files ?? [])]);
    const paste = (event: ClipboardEvent) => take(event, [...(event.clipboardData?.files ?? [])]);
    window.addEventListener('keydown', key, true);
    window.addEventListener('drop', drop, true);
    window.addEventListener('paste', paste, true);
    return () => {
      window.removeEventListener('keydown', key, true);
      window.removeEventListener('drop', drop, true);
      window.removeEventListener('paste', paste, true);
    };
  }, [room]);
}

async function openDropped(room: Room, file: File): Promise<void> {
  const start = await file.slice(0, 16).text();
  if (/^\uFEFF?\s*\{/.test(start)) {
    const text = await file.text();
    if (formatOf(text)?.startsWith('raybend-') ?? false) return openRoomFile(room, text, file.name);
  }
  say(room.app, `${file.name} is no file of the classroom. Films and cases are opened on the bench.`);
}
