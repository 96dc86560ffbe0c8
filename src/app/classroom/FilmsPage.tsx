import { useId } from 'react';
import { useStore } from 'zustand';
import { rayWords } from '../../classroom/exercise.ts';
import { factsOf } from '../../classroom/lessons/lesson.ts';
import { LEVEL_FACTS, LEVELS } from '../../classroom/levels.ts';
import { type FractureSpec, type InventedFilmSpec, parseSpec } from '../../phantom/spec.ts';
import { DialSheet } from '../../ui/classroom/DialSheet.tsx';
import { SetSheet } from '../../ui/classroom/SetSheet.tsx';
import { Choice, PushButton, SwitchButton } from '../../ui/controls/controls.tsx';
import { HandDrawing, siteName } from '../../ui/hand/HandDrawing.tsx';
import { PreviewFilm } from './PreviewFilm.tsx';
import type { Room } from './room.ts';
import {
  addDraft,
  beginSet,
  drawDraft,
  freshSeed,
  openRoomFile,
  putSet,
  saveSet,
  setDraft,
} from './room-actions.ts';
import { usePreview } from './use-preview.ts';

/** The film maker: a drawing of the hand and dials on the left, the film in the middle, the set on the right. */
export function FilmsPage({ room }: { readonly room: Room }) {
  const { store } = room;
  const draft = useStore(store, (state) => state.draft);
  const truthShown = useStore(store, (state) => state.truthShown);
  const set = useStore(store, (state) => state.set);
  const preview = usePreview(room, draft.spec, draft.filmSeed);
  const { made } = preview;
  const seedId = useId();
  const { spec, ray } = draft;
  const [fracture] = spec.fractures;
  const setSpec = (next: InventedFilmSpec) => setDraft(room, { spec: next });
  return (
    <div className="maker">
      <div className="maker__dials">
        <h2>Make a film</h2>
        <p className="aside-note">
          Choose the bone on the hand, then turn the dials; the film follows. It shows nobody.
        </p>
        <div className="maker__site">
          <HandDrawing
            className="maker__hand"
            hand={spec.hand.side}
            site={fracture === undefined ? null : { ray: fracture.ray, region: fracture.region }}
            onChoose={({ ray: chosen, region }) =>
              setDraft(room, { ray: chosen, spec: brokenAt(spec, chosen, region) })
            }
          />
          <div className="maker__start">
            <p className="maker__bone">
              {fracture === undefined
                ? 'Nothing broken'
                : siteName({ ray: fracture.ray, region: fracture.region })}
            </p>
            <SwitchButton
              on={fracture === undefined}
              onChange={(whole) => setSpec(whole ? { ...spec, fractures: [] } : brokenAt(spec, ray, 'neck'))}
            >
              Nothing broken
            </SwitchButton>
            <fieldset className="maker__levels">
              <legend>Draw one by chance</legend>
              {LEVELS.map((level) => (
                <PushButton key={level} onPress={() => drawDraft(room, level)}>
                  {LEVEL_FACTS[level].name}
                </PushButton>
              ))}
            </fieldset>
            <div className="field field--short">
              <label htmlFor={seedId}>Person no.</label>
              <input
                id={seedId}
                className="text-input"
                inputMode="numeric"
                value={draft.filmSeed}
                onChange={(event) => {
                  const typed = Number(event.target.value.replace(/\D/g, ''));
                  setDraft(room, { filmSeed: Math.min(typed, 4294967295) });
                }}
              />
              <PushButton quiet onPress={() => setDraft(room, { filmSeed: freshSeed() })}>
                Another
              </PushButton>
            </div>
          </div>
        </div>
        <DialSheet spec={spec} onSpec={setSpec} />
      </div>
      <figure className="maker__film">
        <PreviewFilm preview={preview} axesOf={truthShown ? ray : null} description={describe(spec)} />
        <figcaption>
          <SwitchButton on={truthShown} onChange={(on) => store.setState({ truthShown: on })}>
            Truth shown
          </SwitchButton>
          {truthShown && made !== null && (
            <dl className="facts">
              {factsOf(made.truth, ray, [
                'shown',
                'forwards',
                'sideways',
                'space',
                'length',
                'magnification',
              ]).map(({ name, value }) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{value}</dd>
                </div>
              ))}
            </dl>
          )}
          <p className="aside-note">
            A preview at a quarter of the size. Positive angles: apex dorsal, apex radial.
          </p>
        </figcaption>
      </figure>
      <div className="maker__set">
        <section className="leaf" aria-label="What is asked on this film">
          <h3>This film in the set</h3>
          <Choice
            label="Asked of the reader"
            options={[
              { value: 'angulation', name: 'the angle' },
              { value: 'deformity', name: 'the deformity' },
            ]}
            value={draft.asked}
            onChange={(asked) => setDraft(room, { asked })}
          />
          <SwitchButton on={draft.otherHand} onChange={(otherHand) => setDraft(room, { otherHand })}>
            With a film of the other hand
          </SwitchButton>
          <PushButton next onPress={() => addDraft(room)}>
            Add to the set
          </PushButton>
        </section>
        <SetSheet
          set={set}
          onOpen={(file) => void file.text().then((text) => openRoomFile(room, text, file.name))}
          onMeasure={(index) => beginSet(room, index)}
          making={{
            onSet: (patch) => putSet(room, patch),
            onSave: () => saveSet(room),
            onChange: (index) => {
              const film = set.films[index];
              if (film !== undefined) setDraft(room, film);
            },
          }}
        />
      </div>
    </div>
  );
}

/** The same film broken at another place; what was set about the break is kept, its exact level is not. */
function brokenAt(
  spec: InventedFilmSpec,
  ray: FractureSpec['ray'],
  region: FractureSpec['region'],
): InventedFilmSpec {
  const [before] = spec.fractures;
  if (before !== undefined) return { ...spec, fractures: [{ ...before, ray, region, level: null }] };
  const parsed = parseSpec({ ...spec, fractures: [{ ray, region, apexDorsalDegrees: 35 }] });
  return parsed.ok ? parsed.value : spec;
}

function describe(spec: InventedFilmSpec): string {
  const [fracture] = spec.fractures;
  const bone =
    fracture === undefined ? 'nothing broken' : `${rayWords(fracture.ray)} broken at the ${fracture.region}`;
  return `Invented film of a ${spec.hand.side} hand turned by ${spec.view.turnDegrees}°, ${bone}`;
}
