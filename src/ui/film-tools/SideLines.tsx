import type { FilmRecord } from '../../case/document.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import type { BenchActions } from '../actions.ts';
import { PushButton, SwitchButton } from '../controls/controls.tsx';
import { Line } from '../worksheet/Section.tsx';
import type { FilmToolsState } from './film-tools.ts';

const SIDES = { L: 'left', R: 'right' } as const;

interface SideLinesProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState;
  readonly actions: BenchActions;
}

/** What the file says of side and view: offered, and said where it does not fit the case. */
export function SideLines({ film, tools, actions }: SideLinesProps) {
  return (
    <>
      <ViewOffer film={film} tools={tools} actions={actions} />
      <SideOffer film={film} tools={tools} actions={actions} />
      <Line
        name="Mirrored"
        note={
          tools.orientation === null
            ? 'Left and right are exchanged on this film.'
            : `Left and right are exchanged on this film. The file says: rows run towards ${tools.orientation[0]}, columns towards ${tools.orientation[1]}.`
        }
      >
        <SwitchButton
          on={film.mirrored}
          onChange={(mirrored) =>
            actions.setFilm(
              film.id,
              { mirrored },
              mirrored ? 'say that the film is mirrored' : 'say that the film is not mirrored',
            )
          }
        >
          This film is mirrored
        </SwitchButton>
      </Line>
    </>
  );
}

function ViewOffer({ film, tools, actions }: SideLinesProps) {
  const { statedView } = tools;
  if (statedView === null || statedView === film.view) return null;
  return (
    <div className="film-tools__offer">
      <Line name={`The file says: ${VIEW_WORDS[statedView]} view`} note="Files are often wrong about this.">
        <PushButton
          onPress={() =>
            actions.setFilm(film.id, { view: statedView, viewFrom: 'file' }, 'take the view from the file')
          }
        >
          Take it
        </PushButton>
      </Line>
    </div>
  );
}

function SideOffer({ film, tools, actions }: SideLinesProps) {
  const { laterality } = film.stated;
  if (laterality !== 'L' && laterality !== 'R') return null;
  const stated = SIDES[laterality];
  const opposite = stated === 'left' ? 'right' : 'left';
  const { injuredHand } = tools;
  if (injuredHand === null) {
    const hand = film.hand === 'injured' ? stated : opposite;
    return (
      <div className="film-tools__offer">
        <Line name={`The file says: ${stated} hand`} note="Check the side marker on the film.">
          <PushButton onPress={() => actions.setInjury({ hand }, 'take the side from the file')}>
            {`The injured hand is the ${hand} one`}
          </PushButton>
        </Line>
      </div>
    );
  }
  const expected = film.hand === 'injured' ? injuredHand : injuredHand === 'left' ? 'right' : 'left';
  if (stated === expected) return null;
  const other = film.hand === 'injured' ? 'other' : 'injured';
  return (
    <div className="film-tools__offer">
      <Line
        name={`The file says: ${stated} hand`}
        note={`The case says ${expected}. Check the side marker on the film.`}
      >
        <PushButton onPress={() => actions.setFilm(film.id, { hand: other }, 'set the hand of the film')}>
          {other === 'other' ? 'It is the other hand' : 'It is the injured hand'}
        </PushButton>
      </Line>
    </div>
  );
}
