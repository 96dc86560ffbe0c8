import { useEffect, useMemo, useRef } from 'react';
import type { FilmAxes } from '../../case/axes.ts';
import type { Upright } from '../../case/course/align.ts';
import type { Film } from '../../film/film.ts';
import type { Light } from '../../film/grey-scale.ts';
import { defaultLight } from '../../film/light.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import { canvasOf, levelPicture } from '../../record/snapshot/film-picture.ts';

interface AlignedFilmProps {
  readonly film: Film;
  readonly light: Light | null;
  readonly axes: FilmAxes;
  readonly upright: Upright;
  /** Units of the frame from top to bottom of the picture. */
  readonly unitsHigh: number;
  /** How far the film is slid along the axis, in units of the frame; positive: towards the fingertip. */
  readonly slide: number;
  readonly description: string;
}

/** Size of the drawing; it is shown as large as its place. */
const WIDTH = 560;
const HEIGHT = 640;
/** Where the fracture lies, from the top: more of the finger than of the wrist is in sight. */
const ORIGIN_FROM_TOP = 0.55;

/** One film with its proximal axis upright and the place of the fracture in the middle. */
export function AlignedFilm(props: AlignedFilmProps) {
  const { film, light, axes, upright, unitsHigh, slide, description } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const scale = HEIGHT / unitsHigh;
  const picture = useMemo(() => greyPicture(film, light ?? defaultLight(film)), [film, light]);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context == null) return;
    const { a, b, c, d, e, f } = upright;
    const [wide, high] = [film.columns / picture.width, film.rows / picture.height];
    context.resetTransform();
    context.fillStyle = '#000';
    context.fillRect(0, 0, WIDTH, HEIGHT);
    context.imageSmoothingQuality = 'high';
    context.setTransform(
      a * scale * wide,
      b * scale * wide,
      c * scale * high,
      d * scale * high,
      e * scale + WIDTH / 2,
      (f - slide) * scale + HEIGHT * ORIGIN_FROM_TOP,
    );
    context.drawImage(picture, 0, 0);
  }, [film, picture, upright, scale, slide]);
  const place = ({ column, row }: FilmPoint): string => {
    const x = (upright.a * column + upright.c * row + upright.e) * scale + WIDTH / 2;
    const y = (upright.b * column + upright.d * row + upright.f - slide) * scale + HEIGHT * ORIGIN_FROM_TOP;
    return `${x.toFixed(1)} ${y.toFixed(1)}`;
  };
  return (
    <div className="aligned" role="img" aria-label={description}>
      <canvas ref={canvas} width={WIDTH} height={HEIGHT} />
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
        {(['proximal', 'distal'] as const).map((which) => {
          const axis = axes[which];
          if (axis === null || !axis.ok) return null;
          const path = `M${place(axis.value.from)}L${place(axis.value.to)}`;
          return (
            <g key={which} data-axis={which}>
              <path className="aligned__casing" d={path} />
              <path className="aligned__axis" d={path} />
            </g>
          );
        })}
      </svg>
    </div>
  );
}

/** The film in grey, from the smallest level that is not coarser than the drawing. */
function greyPicture(film: Film, light: Light): OffscreenCanvas {
  const level = [...film.levels].reverse().find(({ rows }) => rows >= 2 * HEIGHT) ?? film.levels[0]!;
  return canvasOf(levelPicture(film, light, level));
}
