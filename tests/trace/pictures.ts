import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { encode } from 'fast-png';
import type { FilmPoint } from '../../src/geometry/units.ts';
import { trace } from '../../src/trace/trace.ts';
import type { TracedFragment } from '../../src/trace/traced.ts';
import type { InventedCrop } from './invented-crop.ts';
import type { Setting } from './invented-set.ts';
import { cropOf } from './kept-crops.ts';
import { TAP_MODES, type TapMode, tapped } from './tapped.ts';

/**
 * Draws traces of invented films, with the true axes beside them, as SVG files.
 *
 *     npx tsx tests/trace/pictures.ts [--out docs/tracing] [--keep folder] [NAME=SETTING:INDEX:TAPS …]
 *
 * Without names it draws those of docs/tracing.md.
 */
const SHOWN: Readonly<Record<string, string>> = {
  'pa-shaft': 'trial:12:taps 1.0',
  'neighbour-followed': 'trial:67:taps 1.0',
  'sure-and-wrong': 'trial:488:taps 1.0',
  'head-end-on': 'trial:16:taps 1.0',
  'four-rays-in-one': 'trial:8:taps 1.0',
};

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { out: { type: 'string', default: 'docs/tracing' }, keep: { type: 'string' } },
});
const wanted =
  positionals.length === 0
    ? Object.entries(SHOWN)
    : positionals.map((text): readonly [string, string] => {
        const [name = '', which = ''] = text.split('=');
        return [name, which];
      });

/** Film pixels that become one pixel of the picture. */
const COARSER = 2;

/** How much larger the picture is shown than it is. */
const ENLARGED = 1.6;

/** The piece of film as an 8-bit PNG of half its size, its darkest and brightest hundredth cut off. */
function picture({ columns, rows, pixels }: InventedCrop): string {
  const sorted = pixels.slice().sort();
  const low = sorted[Math.floor(0.01 * sorted.length)]!;
  const high = sorted[Math.floor(0.995 * sorted.length)]!;
  const width = Math.floor(columns / COARSER);
  const height = Math.floor(rows / COARSER);
  const data = new Uint8Array(width * height);
  for (let r = 0; r < height; r += 1) {
    for (let c = 0; c < width; c += 1) {
      let sum = 0;
      for (let i = 0; i < COARSER; i += 1) {
        for (let j = 0; j < COARSER; j += 1) sum += pixels[(r * COARSER + i) * columns + c * COARSER + j]!;
      }
      // Steps of four greys halve the file and cannot be seen.
      const grey = (255 * (sum / COARSER ** 2 - low)) / (high - low);
      data[r * width + c] = 4 * Math.round(Math.max(0, Math.min(252, grey)) / 4);
    }
  }
  const bytes = encode({ width, height, data, depth: 8, channels: 1 });
  return `data:image/png;base64,${Buffer.from(bytes).toString('base64')}`;
}

const line = (points: readonly FilmPoint[], style: string): string =>
  `<polyline fill="none" ${style} points="${points.map(({ column, row }) => `${(column / COARSER).toFixed(1)},${(row / COARSER).toFixed(1)}`).join(' ')}"/>`;

const FOUND = { proximal: 'stroke="#f0b429"', distal: 'stroke="#62b6ff"' } as const;

function fragment({ one, other, axis }: TracedFragment, colour: string): string {
  return [one, other]
    .filter((outline) => outline.length > 1)
    .map((outline) =>
      line(
        outline.map(({ at }) => at),
        `${colour} stroke-width="1.2"`,
      ),
    )
    .concat(line([axis.from, axis.to], `${colour} stroke-width="1.2" stroke-dasharray="6 3 1 3"`))
    .join('');
}

function drawn(setting: Setting, index: number, mode: TapMode): string {
  const { planned, crop } = cropOf(setting, index, values.keep ?? null);
  const request = tapped(planned, crop, mode, index);
  const traced = trace(request);
  const width = Math.floor(crop.columns / COARSER);
  const height = Math.floor(crop.rows / COARSER);
  const truth = [crop.proximalAxis, crop.distalAxis]
    .map(({ from, to }) => line([from, to], 'stroke="#fff" stroke-width="1" stroke-dasharray="2 3"'))
    .join('');
  const taps = Object.values(request.taps)
    .map(
      ({ column, row }) =>
        `<circle cx="${(column / COARSER).toFixed(1)}" cy="${(row / COARSER).toFixed(1)}" r="3" fill="none" stroke="#fff"/>`,
    )
    .join('');
  const found = traced.ok
    ? fragment(traced.value.proximal, FOUND.proximal) + fragment(traced.value.distal, FOUND.distal)
    : '';
  const says = [
    `${planned.view}, ${planned.ray} finger, ${planned.site}`,
    `true ${crop.turnDegrees.toFixed(1)}°`,
    traced.ok
      ? `traced ${traced.value.turnDegrees.toFixed(1)}°${traced.value.sure ? '' : ', flagged'}`
      : `no trace: ${traced.error.kind}`,
    traced.ok
      ? `interval ${traced.value.interval.from.toFixed(1)} to ${traced.value.interval.to.toFixed(1)}°`
      : '',
  ];
  const tall = height + 44;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${ENLARGED * width}" height="${ENLARGED * tall}" viewBox="0 0 ${width} ${tall}"><title>${says.filter((text) => text !== '').join('; ')}</title><rect width="100%" height="100%" fill="#111"/><image width="${width}" height="${height}" href="${picture(crop)}"/>${truth}${found}${taps}<g font-family="sans-serif" font-size="8" fill="#eee">${says.map((text, i) => `<text x="4" y="${height + 11 + 10 * i}">${text}</text>`).join('')}</g></svg>\n`;
}

const isMode = (text: string): text is TapMode => TAP_MODES.some((mode) => mode === text);

const folder = resolve(values.out);
mkdirSync(folder, { recursive: true });
for (const [name, which] of wanted) {
  const [setting = '', index = '', mode = ''] = which.split(':');
  if ((setting !== 'trial' && setting !== 'calibration') || !isMode(mode)) {
    throw new RangeError(`“${which}” is not SETTING:INDEX:TAPS.`);
  }
  writeFileSync(join(folder, `${name}.svg`), drawn(setting, Number(index), mode));
  console.log(join(folder, `${name}.svg`));
}
