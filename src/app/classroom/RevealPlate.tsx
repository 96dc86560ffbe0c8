import { useEffect, useRef } from 'react';
import { Plate } from '../../canvas/plate.ts';
import { type MarkRecord, type RecordId, recordId } from '../../case/document.ts';
import { type FilmSegment, ownMark, type SceneMark } from '../../drawing/scene.ts';
import type { MarkStyle } from '../../drawing/strokes.ts';
import type { Film } from '../../film/film.ts';
import { defaultLight } from '../../film/light.ts';
import { degrees, filmPoint } from '../../geometry/units.ts';
import type { RayTruth } from '../../phantom/truth.ts';
import { IGNORED } from './ignored.ts';
import type { ModelAxes } from './model-axes.ts';

interface RevealPlateProps {
  readonly film: Film;
  readonly filmId: RecordId;
  readonly marks: readonly MarkRecord[];
  /** The bone that is looked at, and the axes to draw as the true ones. */
  readonly bone: RayTruth;
  readonly trueAxes: Readonly<Record<'proximal' | 'distal', FilmSegment>>;
  readonly model: ModelAxes | null;
  readonly strokes: 'reading' | 'projector';
}

/** How much of the plate's height the bone takes up: lines a millimetre apart are then told apart. */
const BONE_SHARE = 0.6;

/** The film with the learner's lines, the true ones and the tracer's over each other; nothing can be moved. */
export function RevealPlate({ film, filmId, marks, bone, trueAxes, model, strokes }: RevealPlateProps) {
  const host = useRef<HTMLDivElement>(null);
  const plate = useRef<Plate | null>(null);
  useEffect(() => {
    if (host.current === null) return;
    const made = new Plate(host.current, IGNORED);
    plate.current = made;
    return () => {
      made.destroy();
      plate.current = null;
    };
  }, []);
  useEffect(() => {
    plate.current?.setFilm(film, filmId);
    plate.current?.setLight(defaultLight(film));
    const { base, headCentre } = bone;
    const length = Math.hypot(headCentre.column - base.column, headCentre.row - base.row);
    plate.current?.setView({
      centre: filmPoint((base.column + headCentre.column) / 2, (base.row + headCentre.row) / 2),
      magnification: (BONE_SHARE * (host.current?.clientHeight ?? 600)) / length,
      turn: degrees(0),
      mirrored: false,
    });
  }, [film, filmId, bone]);
  useEffect(() => {
    plate.current?.setMarks({
      filmId,
      marks: [
        ...marks.map((mark) => ({ ...ownMark(mark), editable: false })),
        ...axisMarks(filmId, 'truth', 'reference', trueAxes),
        ...(model === null ? [] : axisMarks(filmId, 'model', 'observer', model)),
      ],
      showAngle: false,
      strokes,
    });
  }, [filmId, marks, trueAxes, model, strokes]);
  return <div ref={host} className="plate__host" />;
}

const axisMarks = (
  filmId: RecordId,
  whose: 'truth' | 'model',
  style: MarkStyle,
  axes: RevealPlateProps['trueAxes'],
): readonly SceneMark[] =>
  (['proximal', 'distal'] as const).map((fragment) => ({
    record: {
      kind: 'mark',
      id: recordId(`${filmId}/${whose}-${fragment}`),
      filmId,
      role: `${fragment}-axis`,
      shape: { construction: 'free', from: axes[fragment].from, to: axes[fragment].to },
      provenance: 'placed',
    },
    style,
    editable: false,
  }));
