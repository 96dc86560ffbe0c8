import { useStore } from 'zustand';
import { LEVEL_FACTS, LEVELS } from '../../classroom/levels.ts';
import { ProgressSheet } from '../../ui/classroom/ProgressSheet.tsx';
import { SetSheet } from '../../ui/classroom/SetSheet.tsx';
import { PushButton } from '../../ui/controls/controls.tsx';
import type { Room } from './room.ts';
import { beginLevel, beginSet, forgetAttempts, openRoomFile, saveAttempts } from './room-actions.ts';

/** Films to measure: by level, or from a set; and how it went so far. */
export function ExercisesPage({ room }: { readonly room: Room }) {
  const set = useStore(room.store, (state) => state.set);
  const attempts = useStore(room.store, (state) => state.attempts);
  return (
    <div className="exercises">
      <div>
        <h2>Exercises</h2>
        <p className="exercises__lead">
          Measure a film as on the bench, then see the truth, your lines and where the difference came from.
        </p>
        <ul className="levels">
          {LEVELS.map((level) => (
            <li key={level}>
              <span>
                <strong>{LEVEL_FACTS[level].name}</strong>
                <small>{LEVEL_FACTS[level].about}</small>
              </span>
              <PushButton
                onPress={() => beginLevel(room, level)}
                label={`Measure one: ${LEVEL_FACTS[level].name}`}
              >
                Measure one
              </PushButton>
            </li>
          ))}
        </ul>
        <ProgressSheet
          attempts={attempts}
          onSave={(kind) => saveAttempts(room, kind)}
          onForget={() => forgetAttempts(room)}
        />
      </div>
      <div>
        <SetSheet
          set={set}
          onOpen={(file) => void file.text().then((text) => openRoomFile(room, text, file.name))}
          onMeasure={(index) => beginSet(room, index)}
          making={null}
        />
      </div>
    </div>
  );
}
