import { useEffect, useRef } from 'react';
import { defaultLight } from '../../film/light.ts';
import type { PhantomRay } from '../../phantom/spec.ts';
import { filmPicture, imageDataOf } from '../../record/snapshot/film-picture.ts';
import type { Preview } from './use-preview.ts';

interface PreviewFilmProps {
  readonly preview: Preview;
  /** Whose true axes are drawn over the film; null: none. */
  readonly axesOf: PhantomRay | null;
  readonly description: string;
}

/** A small film with its truth drawn over it, for turning dials by. Nothing is measured on it. */
export function PreviewFilm({ preview: { made, failed }, axesOf, description }: PreviewFilmProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (made === null || canvas.current === null) return;
    const whole = { area: null, covered: [] };
    const picture = imageDataOf(filmPicture(made.film, defaultLight(made.film), whole));
    canvas.current.width = picture.width;
    canvas.current.height = picture.height;
    canvas.current.getContext('2d')?.putImageData(picture, 0, 0);
  }, [made]);
  const bone = made?.truth.rays.find(({ ray }) => ray === axesOf) ?? null;
  return (
    <div className="preview" data-drawn={made !== null || undefined}>
      <canvas ref={canvas} className="preview__film" role="img" aria-label={description} />
      {made === null && (
        <em className="preview__wait">
          {failed ? 'This film could not be drawn.' : 'The film is being drawn…'}
        </em>
      )}
      {made !== null && bone !== null && (
        <svg
          className="preview__axes"
          viewBox={`0 0 ${made.truth.columns} ${made.truth.rows}`}
          aria-hidden="true"
        >
          {[bone.proximalAxis, bone.distalAxis].map(({ from, to }, index) => (
            <path
              key={index === 0 ? 'proximal' : 'distal'}
              className={index === 0 ? 'preview__proximal' : 'preview__distal'}
              d={`M${from.column} ${from.row}L${to.column} ${to.row}`}
            />
          ))}
        </svg>
      )}
    </div>
  );
}
