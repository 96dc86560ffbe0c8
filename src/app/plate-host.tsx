import { useCallback, useEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { Plate } from '../canvas/plate.ts';
import type { Assessment } from '../case/assessment.ts';
import type { FilmRecord, RecordId } from '../case/document.ts';
import { markedFilm } from '../case/film-marks.ts';
import { pictureKey } from '../case/film-place.ts';
import { formatReading } from '../case/format.ts';
import { corrected } from '../case/marks.ts';
import { ownMark } from '../drawing/scene.ts';
import { defaultLight } from '../film/light.ts';
import { goOnAfterPlacing } from './after-placing.ts';
import { assessmentOf, type LiveAssessments, withShape } from './assessment.ts';
import { keepView } from './beside.ts';
import { allSets } from './limits/sets.ts';
import { placePoint, putMark, stopPlacing } from './placing-actions.ts';
import type { Shell } from './shell.ts';
import { proposalOf } from './tracing/proposal.ts';
import { moveHold, takeTap } from './tracing/trace-actions.ts';
import { tapWanted } from './tracing/trace-task.ts';

interface PlateHostProps {
  readonly shell: Shell;
  readonly live: LiveAssessments;
  readonly record: FilmRecord;
  readonly onPlate: (plate: Plate | null) => void;
}

/** Mounts the plate and keeps it in step with the state; the plate draws by itself, React only hands things in. */
export function PlateHost({ shell, live, record, onPlate }: PlateHostProps) {
  const host = useRef<HTMLDivElement>(null);
  const plate = useRef<Plate | null>(null);
  const announcer = useRef<HTMLParagraphElement>(null);
  const { store } = shell;
  const decoded = useStore(store, (state) => state.films.get(pictureKey(record)) ?? null);
  // The spacing in force is the case's: the user may have set the scale.
  const film = useMemo(
    () => (decoded === null ? null : { ...decoded, spacing: record.spacing }),
    [decoded, record.spacing],
  );
  const light = useStore(store, (state) => state.lights.get(record.id) ?? null);
  const view = useStore(store, (state) => state.views.get(record.id) ?? null);
  const document = useStore(store, (state) => state.caseState.document);
  const localSets = useStore(store, (state) => state.localSets);
  const task = useStore(store, (state) => state.task);
  const trace = useStore(store, (state) => (state.trace?.filmId === record.id ? state.trace : null));
  const found = trace?.found ?? null;
  const proposal = useMemo(() => (found === null ? null : proposalOf(found.bone)), [found]);
  /** Earlier marks are out of sight while an axis is placed again: nobody may aim at them. */
  const blind = useStore(store, (state) => state.repeats?.filmId === record.id);
  const projector = useStore(store, (state) => state.theme === 'projector');
  const shown = useRef(record.id);
  shown.current = record.id;

  useEffect(() => {
    if (host.current === null) return;
    const made = new Plate(host.current, {
      onPreview: (markId, shape) => {
        const { document: current } = store.getState().caseState;
        const previewed = shape === null ? current : withShape(current, markId, shape);
        live.show(previewed);
      },
      onCommit: (markId, shape, label) => {
        const mark = store.getState().caseState.document.records[markId];
        if (mark?.kind !== 'mark') return;
        putMark(shell, label, corrected(mark, shape));
      },
      onPlacingPoint: (point) => {
        if (store.getState().task === null) takeTap(shell, point);
        else placePoint(shell, point);
      },
      onHold: (key, at) => moveHold(shell, key, at),
      onView: (next, whole) => keepView(shell, shown.current, next, whole),
      onFocus: () => undefined,
      onAnnounce: (text) => {
        if (announcer.current !== null) announcer.current.textContent = text;
      },
    });
    plate.current = made;
    onPlate(made);
    return () => {
      onPlate(null);
      made.destroy();
      plate.current = null;
    };
  }, [shell, store, live, onPlate]);

  useEffect(() => {
    plate.current?.setFilm(film, record.id);
    const { views, whole } = store.getState();
    const kept = views.get(record.id);
    if (kept !== undefined) plate.current?.setView(kept);
    if (whole.has(record.id)) plate.current?.wholeFilm();
  }, [store, film, record.id]);
  useEffect(() => {
    if (film !== null) plate.current?.setLight(light ?? defaultLight(film));
  }, [film, light]);
  useEffect(() => {
    // The one in force: showing the whole film may just have put another in place of `view`.
    const inForce = view === null ? undefined : store.getState().views.get(record.id);
    if (inForce !== undefined) plate.current?.setView(inForce);
  }, [store, view, record.id]);
  useEffect(() => {
    const marked = markedFilm(document, record.id);
    plate.current?.setMarks({
      filmId: record.id,
      marks: blind ? [] : Object.values(marked?.marks ?? {}).map(ownMark),
      showAngle: true,
      strokes: projector ? 'projector' : 'reading',
    });
    showReadouts(plate.current, record.id, assessmentOf(document, allSets(localSets)));
  }, [document, localSets, record.id, projector, blind]);
  useEffect(
    () => live.subscribe((assessment) => showReadouts(plate.current, record.id, assessment)),
    [live, record.id],
  );
  const placingHere = task?.filmId === record.id ? task.placing : null;
  useEffect(() => plate.current?.setPlacing(placingHere), [placingHere]);
  useEffect(() => {
    const taps = trace?.bracketing ?? (trace?.found === null ? trace.taps : []);
    plate.current?.setTracing(trace && { wanted: tapWanted(trace), taps, proposal });
  }, [trace, proposal]);
  const tapping = trace !== null && tapWanted(trace) !== null;
  /** From here on the pointer and the keys place points, also where the form has been scrolled past the plate. */
  const goToPlate = useCallback(() => {
    host.current?.scrollIntoView({ block: 'nearest' });
    plate.current?.focusPoint(null);
  }, []);
  useEffect(() => {
    if (tapping) goToPlate();
  }, [tapping, goToPlate]);
  const placingRole = placingHere?.role ?? null;
  useEffect(() => {
    if (placingRole === null) return;
    goToPlate();
    return () => goOnAfterPlacing(placingRole);
  }, [placingRole, goToPlate]);

  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Escape reaches here from the controls inside */}
      <div
        ref={host}
        className="plate__host"
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || task === null) return;
          event.preventDefault();
          stopPlacing(shell);
        }}
      />
      <p ref={announcer} className="visually-hidden" aria-live="polite" />
    </>
  );
}

/** The angle beside the crossing of the axes; none where the lines that are there give no reading. */
function showReadouts(plate: Plate | null, filmId: RecordId, assessment: Assessment): void {
  for (const reading of assessment.readings) {
    if (reading.filmId !== filmId || reading.quantity !== 'angulation') continue;
    const text = reading.state === 'known' ? formatReading(reading) : null;
    plate?.setReadout(filmId, text && { value: text.value, uncertainty: text.plusMinus });
  }
}
