import { Dots, Word } from './drawing-parts.tsx';

/** What stands beside the readings. */
export const BESIDE_DRAWINGS = {
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
