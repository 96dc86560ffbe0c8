import type { ReactNode } from 'react';
import { AXIS_DRAWINGS } from './axis-drawings.tsx';
import { BESIDE_DRAWINGS } from './beside-drawings.tsx';
import type { HelpId } from './page.ts';
import { READING_DRAWINGS } from './reading-drawings.tsx';

const DRAWINGS: Readonly<Record<HelpId, ReactNode>> = {
  ...AXIS_DRAWINGS,
  ...READING_DRAWINGS,
  ...BESIDE_DRAWINGS,
};

/** A small drawing of each definition: bones in grey, the proximal axis solid, the distal one dashed. */
export function HelpDrawing({ page }: { page: HelpId }) {
  return (
    <svg className="help__drawing" viewBox="0 0 240 124" aria-hidden="true">
      {DRAWINGS[page]}
    </svg>
  );
}
