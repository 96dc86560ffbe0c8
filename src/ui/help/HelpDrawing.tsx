import type { ReactNode } from 'react';
import type { HelpId } from './pages.ts';

/** A small drawing of each definition: bones in grey, the proximal axis solid, the distal one dashed. */
export function HelpDrawing({ page }: { page: HelpId }) {
  return (
    <svg className="help__drawing" viewBox="0 0 240 124" aria-hidden="true">
      {DRAWINGS[page]}
    </svg>
  );
}

/** Proximal fragment of a metacarpal seen from the side, wrist on the left, dorsal side up. */
const PROXIMAL = 'M10 40q-4 20 0 38q14 5 24-5L113 72l4-9-7-8 4-9L34 47q-10-11-24-7z';
/** Distal fragment about its broken end, knuckle on the right. */
const DISTAL = 'M-1-13l4 9-7 8 4 10L34 14q7 11 21 9 16-4 16-23 0-19-16-23-14-2-21 9z';

const Fragments = ({ turn = 26, children }: { turn?: number; children?: ReactNode }) => (
  <>
    <path className="help__bone" d={PROXIMAL} />
    <g transform={`translate(124 60) rotate(${turn})`}>
      <path className="help__bone" d={DISTAL} />
      {children}
    </g>
  </>
);

const Dots = ({ at }: { at: readonly (readonly [number, number])[] }) => (
  <>
    {at.map(([x, y]) => (
      <circle key={`${x} ${y}`} className="help__dot" cx={x} cy={y} r="3" />
    ))}
  </>
);

const Word = ({ x, y, children }: { x: number; y: number; children: string }) => (
  <text className="help__word" x={x} y={y}>
    {children}
  </text>
);

const PROXIMAL_AXIS = 'M14 59H118M14 54v10M118 54v10';
const DISTAL_AXIS = 'M4 0H62';

/** Three heads in a PA view: two neighbours and a lower one. */
const Heads = ({ drop }: { drop: number }) => (
  <>
    {[
      [52, 26],
      [112, 32],
      [172, 32 + drop],
    ].map(([x = 0, top = 0]) => (
      <path
        key={x}
        className="help__bone"
        d={`M${x - 11} 118L${x - 12} ${top + 34}q-10-8-7-20 4-14 19-14t19 14q3 12-7 20L${x + 11} 118z`}
      />
    ))}
  </>
);

const DRAWINGS: Readonly<Record<HelpId, ReactNode>> = {
  canal: (
    <>
      <Fragments>
        <path className="help__fine" d="M4-7H40M4 7H40" />
      </Fragments>
      <path className="help__fine" d="M34 53H108M34 66H108" />
      <path className="help__proximal" d="M30 59.5H114" />
      <Dots
        at={[
          [48, 53],
          [48, 66],
          [96, 53],
          [96, 66],
        ]}
      />
    </>
  ),
  'cortex-pair': (
    <>
      <Fragments />
      <path className="help__fine" d="M50 47V73M98 46V72" />
      <path className="help__proximal" d="M30 60H114" />
      <Dots
        at={[
          [50, 47],
          [50, 73],
          [98, 46],
          [98, 72],
        ]}
      />
    </>
  ),
  'dorsal-cortex': (
    <>
      <Fragments>
        <path className="help__distal" d="M0-13H36" />
        <Dots
          at={[
            [6, -13],
            [30, -14],
          ]}
        />
      </Fragments>
      <path className="help__proximal" d="M30 47H114" />
      <Dots
        at={[
          [42, 47],
          [74, 46.5],
          [104, 46],
        ]}
      />
    </>
  ),
  head: (
    <Fragments>
      <circle className="help__fine" cx="51" cy="0" r="20" />
      <path className="help__distal" d="M0 0H51" />
      <Dots
        at={[
          [0, 0],
          [55, -19.6],
          [71, 0],
          [55, 19.6],
        ]}
      />
      <path className="help__cross" d="M47 0h8M51-4v8" />
    </Fragments>
  ),
  free: (
    <>
      <Fragments>
        <path className="help__distal" d={DISTAL_AXIS} />
        <Dots
          at={[
            [6, 0],
            [60, 0],
          ]}
        />
      </Fragments>
      <path className="help__proximal" d="M24 60H112" />
      <Dots
        at={[
          [24, 60],
          [112, 60],
        ]}
      />
    </>
  ),
  angulation: (
    <>
      <Fragments>
        <path className="help__distal" d={DISTAL_AXIS} />
      </Fragments>
      <path className="help__proximal" d={PROXIMAL_AXIS} />
      <path className="help__fine" d="M118 60H214" />
      <path className="help__ink" d="M194 60A70 70 0 0 1 186.900 90.700" />
      <Word x={214} y={84}>
        angle
      </Word>
      <Word x={76} y={34}>
        dorsal
      </Word>
    </>
  ),
  deformity: (
    <>
      <Fragments turn={34}>
        <path className="help__distal" d={DISTAL_AXIS} />
      </Fragments>
      <path className="help__proximal" d={PROXIMAL_AXIS} />
      <path className="help__fine" d="M118 60H214" />
      <path className="help__ghost" d="M124 60L208 76" />
      <path className="help__ink" d="M197 74A74 74 0 0 1 185.300 101.400" />
      <Word x={214} y={70}>
        normal
      </Word>
      <Word x={208} y={112}>
        deformity
      </Word>
    </>
  ),
  length: (
    <>
      <path
        className="help__bone"
        d="M12 44q-4 18 0 34q14 5 24-4L168 72q8 10 24 8 18-4 18-21 0-17-18-21-16-2-24 8L36 48q-10-10-24-4z"
      />
      <path className="help__ink" d="M10 96H210M10 90v12M210 90v12" />
      <Dots
        at={[
          [10, 60],
          [210, 59],
        ]}
      />
    </>
  ),
  shortening: (
    <>
      <Heads drop={26} />
      <path className="help__fine" d="M20 23L230 38" />
      <path className="help__ink" d="M172 35V57" />
      <Dots
        at={[
          [52, 25],
          [112, 31],
          [172, 58],
        ]}
      />
      <Word x={206} y={52}>
        below
      </Word>
    </>
  ),
  translation: (
    <>
      <path className="help__bone" d={PROXIMAL} />
      <g transform="translate(124 78)">
        <path className="help__bone" d={DISTAL} />
        <path className="help__distal" d={DISTAL_AXIS} />
      </g>
      <path className="help__proximal" d={PROXIMAL_AXIS} />
      <path className="help__ink" d="M120 59V78M115 59h10M115 78h10" />
    </>
  ),
  'joint-surface': (
    <>
      <path className="help__bone" d="M36 118V74Q38 42 84 34Q112 30 122 32L116 118z" />
      <path className="help__bone" d="M136 118L140 50Q172 50 190 66Q200 76 202 118z" />
      <path className="help__fine" d="M70 33H190" />
      <path className="help__ink" d="M140 34V50M122 62H138" />
      <Dots
        at={[
          [122, 33],
          [140, 50],
        ]}
      />
      <Word x={162} y={44}>
        step
      </Word>
      <Word x={130} y={78}>
        gap
      </Word>
    </>
  ),
  'spatial-angle': (
    <>
      <path className="help__ghost" d="M28 100L28 34L98 14L98 80z" />
      <path className="help__ghost" d="M98 14L98 80L196 104L196 38z" />
      <path className="help__proximal" d="M98 112V64" />
      <path className="help__distal" d="M98 64L134 26" />
      <path className="help__fine" d="M98 64L70 30M98 64L150 44" />
      <Word x={48} y={112}>
        PA
      </Word>
      <Word x={176} y={118}>
        lateral
      </Word>
    </>
  ),
  'fist-photograph': (
    <>
      {[
        [46, 0],
        [96, 0],
        [146, -4],
        [190, -24],
      ].map(([x = 0, turn = 0]) => (
        <g key={x} transform={`rotate(${turn} ${x} 110)`}>
          <rect className="help__bone" x={x - 19} y="26" width="38" height="84" rx="18" />
          <rect className="help__ghost" x={x - 11} y="34" width="22" height="26" rx="8" />
          <path className="help__ink" d={`M${x} 30V108`} />
        </g>
      ))}
    </>
  ),
  uncertainty: (
    <>
      <path className="help__fine" d="M20 78H220" />
      <path className="help__bar" d="M70 52H176" />
      <circle className="help__dot" cx="123" cy="52" r="6" />
      <path className="help__ink" d="M34 78Q80 78 98 44T123 14T148 44T212 78" />
      <Word x={123} y={100}>
        95 in 100
      </Word>
    </>
  ),
  scale: (
    <>
      <circle className="help__bone" cx="86" cy="62" r="40" />
      <Dots
        at={[
          [86, 22],
          [121, 82],
          [51, 82],
        ]}
      />
      <path className="help__ink" d="M46 114H126M46 109v10M126 109v10" />
      <Word x={178} y={66}>
        24 mm
      </Word>
    </>
  ),
  agreement: (
    <>
      <path className="help__fine" d="M26 30H220M26 96H220" />
      <path className="help__ink" d="M26 64H220M26 14V112" />
      <Dots
        at={[
          [48, 58],
          [66, 76],
          [84, 50],
          [104, 68],
          [122, 84],
          [140, 42],
          [162, 66],
          [184, 56],
          [204, 78],
        ]}
      />
    </>
  ),
};
