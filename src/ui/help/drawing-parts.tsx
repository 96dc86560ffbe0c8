import type { ReactNode } from 'react';

/** Proximal fragment of a metacarpal seen from the side, wrist on the left, dorsal side up. */
export const PROXIMAL = 'M10 40q-4 20 0 38q14 5 24-5L113 72l4-9-7-8 4-9L34 47q-10-11-24-7z';
/** Distal fragment about its broken end, knuckle on the right. */
export const DISTAL = 'M-1-13l4 9-7 8 4 10L34 14q7 11 21 9 16-4 16-23 0-19-16-23-14-2-21 9z';

export const Fragments = ({ turn = 26, children }: { turn?: number; children?: ReactNode }) => (
  <>
    <path className="help__bone" d={PROXIMAL} />
    <g transform={`translate(124 60) rotate(${turn})`}>
      <path className="help__bone" d={DISTAL} />
      {children}
    </g>
  </>
);

export const Dots = ({ at }: { at: readonly (readonly [number, number])[] }) => (
  <>
    {at.map(([x, y]) => (
      <circle key={`${x} ${y}`} className="help__dot" cx={x} cy={y} r="3" />
    ))}
  </>
);

export const Word = ({ x, y, children }: { x: number; y: number; children: string }) => (
  <text className="help__word" x={x} y={y}>
    {children}
  </text>
);

export const PROXIMAL_AXIS = 'M14 59H118M14 54v10M118 54v10';
export const DISTAL_AXIS = 'M4 0H62';

/** Three heads in a PA view: two neighbours and a lower one. */
export const Heads = ({ drop }: { drop: number }) => (
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
