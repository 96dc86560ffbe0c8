import '../../ui/look/leaving.css';
import '../../ui/look/leaving-preview.css';
import '../../ui/look/leaving-narrow.css';
import '../../ui/look/leaving-print.css';
import { useCallback, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { CaseDocument, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { filmsOnPage } from '../../record/pdf/on-page.ts';
import { filmSentence } from '../../record/words/case-words.ts';
import type { Rectangle } from '../../ui/film-tools/part-drawing.ts';
import { LeavingSheet } from '../../ui/leaving/LeavingSheet.tsx';
import type { Covered, LeavingChoice, LeavingKind } from '../../ui/leaving/leaving.ts';
import type { Shell } from '../shell.ts';
import { leavingActions } from './leaving-actions.ts';
import { areaOnPlate } from './pictures.ts';

interface LeavingPanelProps {
  readonly shell: Shell;
  readonly start: LeavingKind;
  readonly onClose: () => void;
}

/** Covers stay while the page is open, so that nobody has to draw them twice. Never kept beyond it. */
const coversOf = new WeakMap<Shell, Covered>();

export default function LeavingPanel({ shell, start, onClose }: LeavingPanelProps) {
  const document = useStore(shell.store, ({ caseState }) => caseState.document);
  const chosen = useStore(shell.store, ({ chosenFilm }) => chosenFilm);
  const actions = useMemo(() => leavingActions(shell), [shell]);
  const [choice, setChoice] = useState(() => firstChoice(start, chosen));
  const [covered, setCovered] = useState<Covered>(() => coversOf.get(shell) ?? new Map());
  const cover = useCallback(
    (filmId: RecordId, areas: readonly Rectangle[]) =>
      setCovered((before) => {
        const next = new Map(before).set(filmId, areas);
        coversOf.set(shell, next);
        return next;
      }),
    [shell],
  );
  const injury = injuryOf(document);
  const films = markedFilms(document).map(({ film }) => film);
  const onPlate = films.find(({ id }) => id === chosen);
  return (
    <LeavingSheet
      choice={choice}
      onChoice={setChoice}
      films={films.map((film, index) => ({
        id: film.id,
        number: index + 1,
        sentence: filmSentence(film, injury),
        invented: film.invented,
      }))}
      chosen={chosen}
      besides={besidesOf(document, films.findIndex(({ id }) => id === chosen) + 1)}
      isMagnified={onPlate !== undefined && areaOnPlate(shell, onPlate) !== null}
      caseName={injury.label}
      covered={covered}
      onCovered={cover}
      actions={actions}
      onClose={onClose}
    />
  );
}

/** How it was, how it is, and the other hand: what stands on a full record beside the film on the plate. */
const besidesOf = (document: CaseDocument, onPlate: number): readonly RecordId[] =>
  filmsOnPage(document, [onPlate], { inFull: 4, listed: 0 })
    .inFull.filter(({ number }) => number !== onPlate)
    .map(({ film }) => film.id);

const firstChoice = (kind: LeavingKind, chosen: RecordId | null): LeavingChoice => ({
  kind,
  picture: {
    films: chosen === null ? [] : [chosen],
    part: 'whole',
    marks: true,
    labels: true,
    words: true,
    ground: 'paper',
  },
  format: 'png',
  withPicture: true,
  beside: null,
  withName: false,
  withDay: true,
  language: 'en',
  clinicWords: '',
  table: 'readings',
  object: 'report',
  identity: 'without',
});
