import type { DrawCommand } from '../../drawing/draw-command.ts';
import { linearScale } from '../../geometry/linear-scale.ts';
import { screenPoint } from '../../geometry/units.ts';
import type { ChosenSet } from './content.ts';
import type { Palette } from './ground.ts';

/** The limit ruler of a snapshot: the band, the reading as a dot, its 95 % interval as a bar. */
export function rulerCommands(
  outcome: ChosenSet,
  width: number,
  top: number,
  { ink, edge, warn }: Palette,
): DrawCommand[] {
  const { reading, band, unit } = outcome;
  const step = unit === 'degrees' ? 10 : 1;
  const low = Math.min(0, reading.value - reading.expandedUncertainty);
  const high = Math.max(
    unit === 'degrees' ? 60 : 6,
    band?.hi ?? 0,
    reading.value + reading.expandedUncertainty,
  );
  const x = linearScale(
    [Math.floor(low / step) * step, Math.ceil((high + step / 2) / step) * step],
    [8, width - 8],
  );
  const line = top + 34;
  const stroke = (
    x1: number,
    y1: number,
    x2: number,
    y2: number,
    colour: string,
    thick: number,
  ): DrawCommand => ({
    kind: 'line',
    points: [screenPoint(x1, y1), screenPoint(x2, y2)],
    colour,
    width: thick,
    dash: [],
    cap: 'butt',
  });
  const { from, to } = x.places;
  const commands: DrawCommand[] = [stroke(from, line, to, line, edge, 1)];
  if (band !== null) {
    commands.push(stroke(x(band.lo), line, Math.max(x(band.hi), x(band.lo) + 1.5), line, warn, 9));
    commands.push(stroke(x(band.hi), line - 9, x(band.hi), line + 9, warn, 1.5));
  }
  for (const mark of x.ticks(7)) {
    commands.push(stroke(x(mark), line - 3, x(mark), line + 3, edge, 1));
    commands.push({
      kind: 'text',
      at: screenPoint(x(mark), line + 16),
      align: 'centre',
      runs: [
        {
          text: `${mark}${unit === 'degrees' ? '°' : ''}`.replace('-', '−'),
          face: 'sans',
          size: 11.5,
          colour: edge,
        },
      ],
    });
  }
  const [least, most] = [
    reading.value - reading.expandedUncertainty,
    reading.value + reading.expandedUncertainty,
  ];
  commands.push(stroke(x(least), top + 12, x(most), top + 12, ink, 3));
  commands.push({
    kind: 'circle',
    centre: screenPoint(x(reading.value), top + 12),
    radius: 4,
    colour: ink,
    width: 4,
    dash: [],
  });
  return commands;
}
