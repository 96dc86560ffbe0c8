import { DISTAL_AXIS, Dots, Fragments } from './drawing-parts.tsx';

/** How an axis of each construction is drawn. */
export const AXIS_DRAWINGS = {
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
};
