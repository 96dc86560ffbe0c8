import type { PageDrawing, PageMark } from '../../record/pdf/page-drawing.ts';
import { PAGE } from '../../record/pdf/sheet.ts';
import { familyOf } from './page-fonts.ts';

interface PageViewProps {
  readonly drawing: PageDrawing;
  readonly name: string;
  /** Address of the one picture of the document, where it has one. */
  readonly picture: string | null;
}

/** A page of a PDF on the screen: the same strokes in the same fonts. */
export function PageView({ drawing, name, picture }: PageViewProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing
    <svg
      className="page"
      viewBox={`0 0 ${PAGE.width} ${PAGE.height}`}
      width={PAGE.width}
      height={PAGE.height}
      role="group"
      aria-label={name}
    >
      <rect className="page__paper" width={PAGE.width} height={PAGE.height} />
      {drawing.map((mark, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a page is drawn once and never reordered
        <Mark key={index} mark={mark} picture={picture} />
      ))}
    </svg>
  );
}

function Mark({ mark, picture }: { readonly mark: PageMark; readonly picture: string | null }) {
  switch (mark.kind) {
    case 'text':
      return (
        <text
          x={mark.x}
          y={mark.y}
          fontFamily={familyOf(mark.face)}
          fontSize={mark.size}
          fill={mark.colour}
          xmlSpace="preserve"
        >
          {mark.text}
        </text>
      );
    case 'line':
      return (
        <line
          x1={mark.from[0]}
          y1={mark.from[1]}
          x2={mark.to[0]}
          y2={mark.to[1]}
          stroke={mark.colour}
          strokeWidth={mark.thickness}
          {...(mark.dash.length === 0 ? {} : { strokeDasharray: mark.dash.join(' ') })}
        />
      );
    case 'rectangle':
      return <rect x={mark.x} y={mark.y} width={mark.width} height={mark.height} fill={mark.fill} />;
    case 'circle':
      return (
        <circle
          cx={mark.x}
          cy={mark.y}
          r={mark.radius}
          fill={mark.fill ?? 'none'}
          stroke={mark.stroke ?? 'none'}
          strokeWidth={mark.thickness}
        />
      );
    case 'path':
      return (
        <path
          d={mark.path}
          fill={mark.fill ?? 'none'}
          stroke={mark.stroke ?? 'none'}
          strokeWidth={mark.thickness}
        />
      );
    case 'picture':
      return picture === null ? null : (
        <image href={picture} x={mark.x} y={mark.y} width={mark.width} height={mark.height} />
      );
  }
}
