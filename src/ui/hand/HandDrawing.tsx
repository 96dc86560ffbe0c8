import { type KeyboardEvent, useId, useRef } from 'react';
import { RAYS, type Ray, REGIONS, type Region } from '../../tolerance/anatomy.ts';
import { boneOutline, FOREARM, FRAME, PHALANGES, regionOutline, WRIST } from './hand-geometry.ts';

export interface Site {
  readonly ray: Ray;
  readonly region: Region;
}

export const siteName = (site: Site): string =>
  site.ray === 'thumb' ? `thumb, ${site.region}` : `${site.ray} finger, ${site.region}`;

interface HandDrawingProps {
  readonly hand: 'left' | 'right' | null;
  readonly site: Site | null;
  /** Absent: a picture only. Present: each region of each metacarpal is a choice. */
  readonly onChoose?: (site: Site) => void;
  readonly className?: string;
}

/**
 * The hand from its back with the five metacarpals split into regions. As a choice it is one radio group:
 * left and right go from finger to finger as drawn, up and down along the bone.
 */
export function HandDrawing({ hand, site, onChoose, className }: HandDrawingProps) {
  const titleId = useId();
  const group = useRef<SVGSVGElement>(null);
  const mirrored = hand === 'left';
  const focusable = site ?? { ray: 'small', region: 'neck' };

  const move = (event: KeyboardEvent, from: Site) => {
    const step = stepFor(event.key, mirrored);
    if (step === null) return;
    event.preventDefault();
    const ray = RAYS[clampIndex(RAYS.indexOf(from.ray) + step.ray, RAYS.length)]!;
    const region = REGIONS[clampIndex(REGIONS.indexOf(from.region) + step.region, REGIONS.length)]!;
    onChoose?.({ ray, region });
    group.current?.querySelector<SVGElement>(`[data-site="${ray}-${region}"]`)?.focus();
  };

  const bones = (
    <g transform={mirrored ? `translate(${FRAME.width} 0) scale(-1 1)` : undefined}>
      {FOREARM.map((bone) => (
        <path key={String(bone.from)} className="hand__faint" d={boneOutline(bone)} />
      ))}
      {WRIST.map(({ at, radii, turn }) => (
        <ellipse
          key={String(at)}
          className="hand__faint"
          cx={at[0]}
          cy={at[1]}
          rx={radii[0]}
          ry={radii[1]}
          transform={`rotate(${turn} ${at[0]} ${at[1]})`}
        />
      ))}
      {PHALANGES.map((bone) => (
        <path key={String(bone.from)} className="hand__faint" d={boneOutline(bone)} />
      ))}
      {RAYS.flatMap((ray) =>
        REGIONS.map((region) => {
          const chosen = site?.ray === ray && site.region === region;
          const outline = regionOutline(ray, region);
          if (onChoose === undefined)
            return (
              <path
                key={`${ray}-${region}`}
                className="hand__region"
                data-chosen={chosen || undefined}
                d={outline}
              />
            );
          return (
            // biome-ignore lint/a11y/useSemanticElements: a native radio cannot be drawn inside an SVG outline
            <g
              key={`${ray}-${region}`}
              role="radio"
              aria-checked={chosen}
              aria-label={siteName({ ray, region })}
              data-site={`${ray}-${region}`}
              data-chosen={chosen || undefined}
              className="hand__choice"
              tabIndex={focusable.ray === ray && focusable.region === region ? 0 : -1}
              onClick={() => onChoose({ ray, region })}
              onKeyDown={(event) => {
                if (event.key === ' ' || event.key === 'Enter') {
                  event.preventDefault();
                  onChoose({ ray, region });
                } else move(event, { ray, region });
              }}
            >
              <path className="hand__reach" d={outline} />
              <path className="hand__region" data-chosen={chosen || undefined} d={outline} />
            </g>
          );
        }),
      )}
    </g>
  );

  const viewBox = `0 0 ${FRAME.width} ${FRAME.height}`;
  if (onChoose === undefined)
    return (
      <svg className={`hand ${className ?? ''}`} viewBox={viewBox} aria-hidden="true">
        {bones}
      </svg>
    );
  return (
    <svg ref={group} className={`hand ${className ?? ''}`} viewBox={viewBox} aria-labelledby={titleId}>
      <title id={titleId}>Broken bone and region</title>
      {bones}
    </svg>
  );
}

const clampIndex = (index: number, length: number) => Math.min(length - 1, Math.max(0, index));

/** REGIONS run from the head down to the base, as the drawing does. */
function stepFor(key: string, mirrored: boolean): { ray: number; region: number } | null {
  const rightwards = mirrored ? -1 : 1;
  switch (key) {
    case 'ArrowRight':
      return { ray: rightwards, region: 0 };
    case 'ArrowLeft':
      return { ray: -rightwards, region: 0 };
    case 'ArrowDown':
      return { ray: 0, region: 1 };
    case 'ArrowUp':
      return { ray: 0, region: -1 };
    default:
      return null;
  }
}
