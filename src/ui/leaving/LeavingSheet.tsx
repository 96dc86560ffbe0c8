import { useEffect, useRef, useState } from 'react';
import type { RecordId } from '../../case/document.ts';
import { Choice, type Option, PushButton } from '../controls/controls.tsx';
import type { Rectangle } from '../film-tools/part-drawing.ts';
import { Sheet } from '../opening/Sheet.tsx';
import { CoverText } from './CoverText.tsx';
import {
  type Covered,
  filmsShown,
  type LeavingActions,
  type LeavingChoice,
  type LeavingFilm,
  type LeavingKind,
} from './leaving.ts';
import { CoverLines, PictureOptions } from './PictureOptions.tsx';
import { Preview } from './Preview.tsx';
import { printPages } from './print-pages.ts';
import { NoteOptions, ObjectOptions, PatientOptions, RecordOptions, TableOptions } from './TextOptions.tsx';
import { usePrepared } from './use-prepared.ts';
import { useTextFound } from './use-text-found.ts';

interface LeavingSheetProps {
  readonly choice: LeavingChoice;
  readonly onChoice: (choice: LeavingChoice) => void;
  readonly films: readonly LeavingFilm[];
  /** The film on the plate. */
  readonly chosen: RecordId | null;
  /** The films that a record may picture beside it: of many those that say most. */
  readonly besides: readonly RecordId[];
  readonly isMagnified: boolean;
  readonly caseName: string;
  readonly covered: Covered;
  readonly onCovered: (filmId: RecordId, areas: readonly Rectangle[]) => void;
  readonly actions: LeavingActions;
  readonly onClose: () => void;
}

const KINDS: readonly Option<LeavingKind>[] = [
  { value: 'snapshot', name: 'Snapshot' },
  { value: 'record', name: 'Record' },
  { value: 'patient', name: 'Patient sheet' },
  { value: 'note', name: 'Note' },
  { value: 'table', name: 'Tables' },
  { value: 'object', name: 'DICOM' },
];

/** What leaves, as it leaves, and the button that lets it. */
export function LeavingSheet(props: LeavingSheetProps) {
  const { choice, onChoice, films, chosen, covered, onCovered, actions, onClose } = props;
  const [covering, setCovering] = useState<RecordId | null>(null);
  const [lookedAt, setLookedAt] = useState<unknown>(null);
  const [done, setDone] = useState('');
  const top = useRef<HTMLDivElement>(null);
  // Once the sheet is open: the browser would begin at the first page and not at the one that was asked for.
  useEffect(() => top.current?.querySelector<HTMLInputElement>('input:checked')?.focus(), []);
  const change = (patch: Partial<LeavingChoice>) => {
    setDone('');
    onChoice({ ...choice, ...patch });
  };

  const shownIds = filmsShown(choice, chosen);
  const shown = films.filter(({ id }) => shownIds.includes(id));
  const notLooked = useTextFound(shownIds, covered, onCovered, actions);
  const searching = shownIds.some((id) => !covered.has(id) && !notLooked.has(id));
  const prepared = usePrepared(choice, covered, searching || covering !== null, actions);
  const leaving = prepared?.ready === true ? prepared.leaving : null;

  const mustLook =
    shown.some(({ invented }) => !invented) && !(choice.kind === 'object' && choice.identity === 'matching');
  // Looking counts for the picture that was looked at: a new one is looked at anew.
  const looked = leaving !== null && lookedAt === leaving;
  const open = covering !== null && shownIds.includes(covering) ? covering : null;
  const pages = leaving?.preview.kind === 'pages';

  return (
    <Sheet
      title="What leaves this computer"
      wide
      onClose={onClose}
      foot={
        <>
          {mustLook && (
            <label className="leaving__check leaving__looked">
              <input
                type="checkbox"
                checked={looked}
                disabled={leaving === null}
                onChange={(event) => setLookedAt(event.target.checked ? leaving : null)}
              />
              <span>I looked at the whole picture: it names nobody.</span>
            </label>
          )}
          <PushButton
            next
            disabled={leaving === null || (mustLook && !looked)}
            onPress={() => void leaving?.carryOut(looked || !mustLook).then(setDone)}
          >
            {leaving?.verb ?? 'Save'}
          </PushButton>
          {pages && (
            <PushButton disabled={mustLook && !looked} onPress={printPages}>
              Print
            </PushButton>
          )}
          <PushButton onPress={onClose}>Close</PushButton>
          <span className="leaving__done" role="status">
            {done}
          </span>
          {done === '' && leaving?.file != null && (
            <span className="aside-note">
              {leaving.file.name}, {sizeText(leaving.file.bytes)}
            </span>
          )}
        </>
      }
    >
      <div className="leaving" ref={top}>
        <Choice
          label="What"
          labelHidden
          options={films.length === 0 ? KINDS.filter(({ value }) => value !== 'snapshot') : KINDS}
          value={choice.kind}
          onChange={(kind) => {
            setCovering(null);
            change({ kind });
          }}
        />
        <div className="leaving__body">
          <div className="leaving__options">
            <Options {...props} onChange={change} />
            {shown.length > 0 && !searching && (
              <CoverLines
                shown={shown}
                covered={covered}
                notLooked={notLooked}
                covering={open}
                onCovering={setCovering}
              />
            )}
          </div>
          <div className="leaving__preview" data-kind={leaving?.preview.kind}>
            {open !== null ? (
              <CoverText
                key={open}
                filmId={open}
                areas={covered.get(open) ?? []}
                still={actions.still}
                onChange={(areas) => onCovered(open, areas)}
              />
            ) : searching ? (
              <p role="status">Looking for text in the film…</p>
            ) : prepared === null ? (
              <p role="status">Making it ready…</p>
            ) : prepared.ready ? (
              <Preview preview={prepared.leaving.preview} />
            ) : (
              <p className="leaving__problem" role="alert">
                {prepared.sentence}
              </p>
            )}
          </div>
        </div>
      </div>
    </Sheet>
  );
}

function Options({
  choice,
  films,
  chosen,
  besides,
  isMagnified,
  caseName,
  onChange,
}: LeavingSheetProps & { readonly onChange: (patch: Partial<LeavingChoice>) => void }) {
  switch (choice.kind) {
    case 'snapshot':
      return <PictureOptions choice={choice} films={films} isMagnified={isMagnified} onChange={onChange} />;
    case 'record':
      return (
        <RecordOptions
          choice={choice}
          caseName={caseName}
          besides={films.filter(({ id }) => besides.includes(id))}
          chosen={chosen}
          onChange={onChange}
        />
      );
    case 'patient':
      return <PatientOptions choice={choice} onChange={onChange} />;
    case 'note':
      return <NoteOptions />;
    case 'table':
      return <TableOptions choice={choice} onChange={onChange} />;
    case 'object':
      return <ObjectOptions choice={choice} onChange={onChange} />;
  }
}

function sizeText(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  return bytes < 1_000_000 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
