import type { DrawCommand } from '../../src/drawing/draw-command.ts';

const round = (value: unknown): unknown => {
  if (typeof value === 'number') return Math.round(value * 1000) / 1000 + 0;
  if (Array.isArray(value)) return value.map(round);
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, round(inner)]));
  }
  return value;
};

/** A drawing list as text, one command a line, numbers rounded to three decimals. */
export const drawingText = (commands: readonly DrawCommand[]): string =>
  `${commands.map((command) => JSON.stringify(round(command))).join('\n')}\n`;
