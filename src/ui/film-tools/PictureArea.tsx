import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { type FilmPoint, filmPoint } from '../../geometry/units.ts';
import type { StillPicture } from './film-tools.ts';
import { onPicture } from './part-drawing.ts';

/** A corner that can be taken hold of. */
export interface Handle {
  readonly key: string;
  /** "Part 1, top left corner". */
  readonly name: string;
  readonly at: FilmPoint;
  readonly onMove: (to: FilmPoint) => void;
}

interface PictureAreaProps {
  readonly picture: StillPicture;
  readonly handles: readonly Handle[];
  /** What is drawn over the picture, in its pixels. `pixel` is how many of them a screen pixel covers. */
  readonly children: (pixel: number) => ReactNode;
  /** A rectangle is being drawn on the bare picture; `done` when it is let go. Absent: nothing is drawn. */
  readonly onDraw?: (from: FilmPoint, to: FilmPoint, done: boolean) => void;
}

/** Wide enough for a finger, in screen pixels. */
const REACH = 22;
const GRIP = 7;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** A still picture with corners that are moved by the pointer, or by the arrow keys: one screen pixel, ten with Shift. */
export function PictureArea({ picture, handles, children, onDraw }: PictureAreaProps) {
  const { columns, rows, url } = picture;
  const svg = useRef<SVGSVGElement>(null);
  const pixel = usePixel(svg, columns, rows);
  const drag = useRef<{ readonly handle: string | null; readonly from: FilmPoint } | null>(null);
  const at = (event: PointerEvent): FilmPoint => {
    const matrix = svg.current?.getScreenCTM()?.inverse();
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return onPicture(filmPoint(point.x, point.y), picture);
  };
  const begin = (event: PointerEvent, handle: string | null) => {
    if (handle === null && onDraw === undefined) return;
    event.stopPropagation();
    svg.current?.setPointerCapture(event.pointerId);
    drag.current = { handle, from: at(event) };
  };
  const go = (event: PointerEvent, done: boolean) => {
    if (drag.current === null) return;
    const { handle, from } = drag.current;
    if (handle === null) onDraw?.(from, at(event), done);
    else handles.find(({ key }) => key === handle)?.onMove(at(event));
    if (done) drag.current = null;
  };
  const press = (event: KeyboardEvent, handle: Handle) => {
    const arrow = ARROWS[event.key];
    if (arrow === undefined) return;
    event.preventDefault();
    const step = pixel * (event.shiftKey ? 10 : 1);
    const [right, down] = arrow;
    handle.onMove(
      onPicture(filmPoint(handle.at.column + step * right, handle.at.row + step * down), picture),
    );
  };
  return (
    <div className="parts__picture">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be drawn in */}
      <svg
        ref={svg}
        viewBox={`0 0 ${columns} ${rows}`}
        role="group"
        aria-label="The whole picture"
        onPointerDown={(event) => begin(event, null)}
        onPointerMove={(event) => go(event, false)}
        onPointerUp={(event) => go(event, true)}
        onPointerCancel={() => {
          // Nothing is as wide as a point: what was being drawn is gone, and nothing comes of it.
          if (drag.current?.handle === null) onDraw?.(drag.current.from, drag.current.from, true);
          drag.current = null;
        }}
      >
        <image href={url} width={columns} height={rows} />
        {children(pixel)}
        {handles.map((handle) => (
          // biome-ignore lint/a11y/useSemanticElements: there is no button element in a drawing
          <g
            key={handle.key}
            className="parts__handle"
            role="button"
            tabIndex={0}
            aria-label={`${handle.name}, column ${Math.round(handle.at.column)}, row ${Math.round(handle.at.row)}. Arrow keys move it.`}
            onPointerDown={(event) => begin(event, handle.key)}
            onKeyDown={(event) => press(event, handle)}
            transform={`translate(${handle.at.column} ${handle.at.row})`}
          >
            <circle className="parts__reach" r={REACH * pixel} />
            <circle className="parts__grip" r={GRIP * pixel} />
          </g>
        ))}
      </svg>
    </div>
  );
}

/** How many pixels of the picture one screen pixel covers. */
function usePixel(svg: React.RefObject<SVGSVGElement | null>, columns: number, rows: number): number {
  const [pixel, setPixel] = useState(1);
  useEffect(() => {
    const node = svg.current;
    if (node === null) return;
    const observer = new ResizeObserver(() => {
      const { width, height } = node.getBoundingClientRect();
      if (width > 0 && height > 0) setPixel(Math.max(columns / width, rows / height));
    });
    observer.observe(node);
    return () => observer.disconnect();
  }, [svg, columns, rows]);
  return pixel;
}
