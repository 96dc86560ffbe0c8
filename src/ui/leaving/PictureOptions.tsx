import type { RecordId } from '../../case/document.ts';
import { Choice, PushButton, SwitchButton } from '../controls/controls.tsx';
import type { Covered, LeavingChoice, LeavingFilm, PictureChoice } from './leaving.ts';
import type { NotLooked } from './use-text-found.ts';

interface PictureOptionsProps {
  readonly choice: LeavingChoice;
  readonly films: readonly LeavingFilm[];
  /** Whether the plate shows less than the whole film. */
  readonly isMagnified: boolean;
  readonly onChange: (patch: Partial<LeavingChoice>) => void;
}

/** What a snapshot shows and how. */
export function PictureOptions({ choice, films, isMagnified, onChange }: PictureOptionsProps) {
  const { picture, format } = choice;
  const set = (patch: Partial<PictureChoice>) => onChange({ picture: { ...picture, ...patch } });
  const several = picture.films.length > 1;
  return (
    <>
      <Choice
        label="File"
        options={[
          { value: 'png', name: 'PNG' },
          { value: 'svg', name: 'SVG' },
        ]}
        value={format}
        onChange={(next) => onChange({ format: next })}
      />
      {films.length > 1 && (
        <fieldset className="leaving__films">
          <legend>Films</legend>
          <div className="leaving__film-list">
            {films.map(({ id, number, sentence }) => (
              <label key={id} className="leaving__check">
                <input
                  type="checkbox"
                  checked={picture.films.includes(id)}
                  disabled={picture.films.length === 1 && picture.films[0] === id}
                  onChange={(event) =>
                    set({ films: withFilm(films, picture.films, id, event.target.checked) })
                  }
                />
                <span>
                  <em>Film {number}.</em> {sentence}
                </span>
              </label>
            ))}
          </div>
        </fieldset>
      )}
      {isMagnified && !several && (
        <Choice
          label="Part"
          options={[
            { value: 'whole', name: 'Whole film' },
            { value: 'on-plate', name: 'As on the plate' },
          ]}
          value={picture.part}
          onChange={(part) => set({ part })}
        />
      )}
      <div className="leaving__switches">
        <SwitchButton on={picture.marks} onChange={(marks) => set({ marks })}>
          Axes
        </SwitchButton>
        <SwitchButton on={picture.labels} onChange={(labels) => set({ labels })}>
          Numbers
        </SwitchButton>
        <SwitchButton on={picture.words} onChange={(words) => set({ words })}>
          Words beside
        </SwitchButton>
      </div>
      <Choice
        label="Background"
        options={[
          { value: 'paper', name: 'Paper' },
          { value: 'white', name: 'White' },
          { value: 'dark', name: 'Dark' },
        ]}
        value={picture.ground}
        onChange={(ground) => set({ ground })}
      />
    </>
  );
}

/** In the order of the case. */
const withFilm = (
  films: readonly LeavingFilm[],
  chosen: readonly RecordId[],
  id: RecordId,
  on: boolean,
): readonly RecordId[] =>
  films.map((film) => film.id).filter((one) => (one === id ? on : chosen.includes(one)));

const NO_PIXELS = 'its pixels are not here, so nothing was looked for. Open its file again.';

const BROKE_OFF =
  'looking for text broke off, so any is still there. Cover it yourself before the picture leaves.';

const coveredWords = (areas: number): string =>
  areas === 0
    ? 'no text found, nothing covered.'
    : `${areas} ${areas === 1 ? 'area' : 'areas'} covered as text.`;

interface CoverLinesProps {
  readonly shown: readonly LeavingFilm[];
  readonly covered: Covered;
  readonly notLooked: ReadonlyMap<RecordId, NotLooked>;
  /** The film whose covers are open; null: the preview is. */
  readonly covering: RecordId | null;
  readonly onCovering: (filmId: RecordId | null) => void;
}

/** Which films have text covered, and the way to change it. */
export function CoverLines({ shown, covered, notLooked, covering, onCovering }: CoverLinesProps) {
  return (
    <div className="leaving__covers">
      {shown.map(({ id, number }) => {
        const areas = covered.get(id) ?? null;
        const missing = areas === null && notLooked.get(id) === 'no-pixels';
        const verb = covering === id ? 'Back to the preview' : 'Cover text';
        return (
          <div key={id} className="leaving__cover">
            <span>
              Film {number}: {missing ? NO_PIXELS : areas === null ? BROKE_OFF : coveredWords(areas.length)}
            </span>
            {!missing && (
              <PushButton
                onPress={() => onCovering(covering === id ? null : id)}
                label={shown.length > 1 ? `${verb}, film ${number}` : verb}
              >
                {verb}
              </PushButton>
            )}
          </div>
        );
      })}
    </div>
  );
}
