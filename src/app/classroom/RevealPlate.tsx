import { useEffect, useRef } from 'react';
import { Plate } from '../../canvas/plate.ts';
import { type MarkRecord, type MarkShape, type RecordId, recordId } from '../../case/document.ts';
import type { Reveal } from '../../classroom/reveal.ts';
import { ownMark, type SceneMark } from '../../drawing/scene.ts';
import type { MarkStyle } from '../../drawing/strokes.ts';
import type { Film } from '../../film/film.ts';
import { defaultLight } from '../../film/light.ts';
import { toFilm } from '../../geometry/spacing.ts';
import { degrees, filmPoint } from '../../geometry/units.ts';
import type { ModelAxes } from './model-axes.ts';

interface RevealPlateProps {
  readonly film: Film;
  readonly filmId: RecordId;
  readonly marks: readonly MarkRecord[];
  readonly found: Reveal;
  readonly model: ModelAxes | null;
  readonly strokes: 'reading' | 'projector';
}

/** How much of the plate's height the bone takes up: lines a millimetre apart are then told apart. */
const BONE_SHARE = 0.6;

const IGNORED = {
  onPreview: () => undefined,
  onCommit: () => undefined,
  onPlacingPoint: () => undefined,
  onView: () => undefined,
  onFocus: () => undefined,
  onAnnounce: () => undefined,
};

/** The film with the learner's lines, the true ones and the tracer's over each other; nothing can be moved. */
export function RevealPlate({ film, filmId, marks, found, model, strokes }: RevealPlateProps) {
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
    const { base, headCentre } = found.bone.truth;
    const length = Math.hypot(headCentre.column - base.column, headCentre.row - base.row);
    plate.current?.setView({
      centre: filmPoint((base.column + headCentre.column) / 2, (base.row + headCentre.row) / 2),
      magnification: (BONE_SHARE * (host.current?.clientHeight ?? 600)) / length,
      turn: degrees(0),
      mirrored: false,
    });
  }, [film, filmId, found]);
  useEffect(() => {
    plate.current?.setMarks({
      filmId,
      marks: [
        ...marks.map((mark) => ({ ...ownMark(mark), editable: false })),
        ...trueMarks(found),
        ...(model === null ? [] : modelMarks(filmId, model)),
      ],
      showAngle: false,
      strokes,
    });
  }, [filmId, marks, found, model, strokes]);
  return <div ref={host} className="plate__host" />;
}

function trueMarks({ filmId, proximal, distal, bone }: Reveal): readonly SceneMark[] {
  return [proximal, distal].map(({ fragment, trueAxis }) =>
    overlay(filmId, 'truth', fragment, 'reference', {
      construction: 'free',
      from: toFilm(trueAxis.from, bone.scale),
      to: toFilm(trueAxis.to, bone.scale),
    }),
  );
}

const modelMarks = (filmId: RecordId, { proximal, distal }: ModelAxes): readonly SceneMark[] => [
  overlay(filmId, 'model', 'proximal', 'observer', { construction: 'free', ...proximal }),
  overlay(filmId, 'model', 'distal', 'observer', { construction: 'free', ...distal }),
];

const overlay = (
  filmId: RecordId,
  whose: string,
  fragment: 'proximal' | 'distal',
  style: MarkStyle,
  shape: MarkShape,
): SceneMark => ({
  record: {
    kind: 'mark',
    id: recordId(`${filmId}/${whose}-${fragment}`),
    filmId,
    role: `${fragment}-axis`,
    shape,
    provenance: 'placed',
  },
  style,
  editable: false,
});
