import {
  DISTAL,
  DISTAL_AXIS,
  Dots,
  Fragments,
  Heads,
  PROXIMAL,
  PROXIMAL_AXIS,
  Word,
} from './drawing-parts.tsx';

/** What each reading is. */
export const READING_DRAWINGS = {
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
  'bend-place': (
    <>
      <Fragments>
        <path className="help__distal" d={DISTAL_AXIS} />
      </Fragments>
      <path className="help__proximal" d={PROXIMAL_AXIS} />
      <Dots at={[[124, 60]]} />
      <path className="help__ink" d="M24 104H124M24 99V109M124 99V109" />
      <Word x={74} y={124}>
        from the base
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
};
