import type { Film, LookupTable } from './film.ts';
import { isInverted, type Light, modalityRange } from './grey-scale.ts';

/** A histogram needs no more pixels than this to be steady. */
const ENOUGH_PIXELS = 1_000_000;
/** Share of the pixels left out below, and above, when a film names no window. */
const TAIL = 0.005;

/** What a light is chosen from. */
type Seen = Pick<Film, 'levels' | 'storedMin' | 'storedMax' | 'grey' | 'facts'>;

type Opening = Omit<Extract<Light['shown'], { readonly kind: 'window' }>, 'kind'>;

/** Stored values below which `TAIL` of the pixels lie, and above which `TAIL` lie; padding left out. */
function robustRange(film: Seen): { readonly from: number; readonly to: number } {
  const { padding } = film.grey;
  const level =
    film.levels.find(({ pixels }) => pixels.length <= ENOUGH_PIXELS) ?? film.levels[film.levels.length - 1];
  const counts = new Uint32Array(film.storedMax - film.storedMin + 1);
  let total = 0;
  for (const value of level?.pixels ?? []) {
    if (padding !== null && value >= padding.from && value <= padding.to) continue;
    const index = value - film.storedMin;
    counts[index] = (counts[index] ?? 0) + 1;
    total++;
  }
  const at = (share: number) => {
    let below = 0;
    const index = counts.findIndex((count) => {
      below += count;
      return below > share * total;
    });
    return film.storedMin + Math.max(index, 0);
  };
  return { from: at(TAIL), to: at(1 - TAIL) };
}

/** LINEAR_EXACT with this centre and width runs exactly from the least value, 0, to the greatest, 255. */
const spanning = (least: number, greatest: number): Opening => ({
  center: (least + greatest) / 2,
  width: Math.max(greatest - least, 1),
  function: 'LINEAR_EXACT',
});

/**
 * The window that a table most resembles: between the places where its output leaves 2.5 % of one end of the greys and
 * reaches 2.5 % of the other. A table falls where its last entry is less than its first.
 */
function resembling({ entries, firstMapped, bitsPerEntry }: LookupTable): Opening {
  const greatest = 2 ** bitsPerEntry - 1;
  const last = entries.length - 1;
  const falls = (entries[last] ?? 0) < (entries[0] ?? 0);
  const rising = (entry: number) => (falls ? greatest - entry : entry) / greatest;
  const from = Math.max(
    entries.findIndex((entry) => rising(entry) > 0.025),
    0,
  );
  const reached = entries.findIndex((entry) => rising(entry) >= 0.975);
  const to = reached < 0 ? last : reached;
  const window = spanning(firstMapped + from, firstMapped + Math.max(to, from));
  return falls ? { ...window, falls } : window;
}

/**
 * How a film is first shown: the file's first window, else its first VOI table, else the range from the 0.5th
 * to the 99.5th percentile, so that a raw film with a few stray values is not shown grey on grey. A picture,
 * or a film stored in colour, is shown as it is stored.
 */
export function defaultLight(film: Seen): Light {
  const { grey } = film;
  const first = grey.windows[0];
  if (first === undefined && grey.voiTables.length > 0) {
    return { shown: { kind: 'voi-table', index: 0 }, negative: false };
  }
  return { shown: { kind: 'window', ...openingAtRest(film) }, negative: false };
}

/** The window the sliders start from: that of `defaultLight`, or the one its table most resembles. */
function openingAtRest(film: Seen): Opening {
  const { grey, facts } = film;
  const [window] = grey.windows;
  if (window !== undefined) {
    return { center: window.center, width: window.width, function: window.function };
  }
  const [table] = grey.voiTables;
  if (table !== undefined) return resembling(table);
  const asStored = facts.format !== 'dicom' || facts.wasColour;
  const { from, to } = asStored ? { from: 0, to: 2 ** grey.bitsStored - 1 } : robustRange(film);
  const { least, greatest } = modalityRange(grey.modality, from, to);
  return spanning(least, greatest);
}

/** Positions of the two sliders of the plate, each from 0 to 1; one half each is the film as it came. */
export interface Sliders {
  /** Greater is lighter as displayed. */
  readonly brightness: number;
  /** Greater is steeper: fewer values between black and white. */
  readonly contrast: number;
}

/** Contrast at its ends makes the window this many times as wide, or as narrow. */
const CONTRAST_REACH = 16;

const clamp = (value: number, from: number, to: number) => Math.min(Math.max(value, from), to);

/** How far brightness moves the centre at its ends, in modality units: the film's range or the window's width. */
function centerReach(film: Film, rest: Opening): number {
  const { least, greatest } = modalityRange(film.grey.modality, film.storedMin, film.storedMax);
  return Math.max(greatest - least, rest.width);
}

/**
 * The light for two slider positions. Both at one half give `defaultLight`; otherwise the centre moves
 * linearly with brightness, by at most the film's range either way, and the width falls geometrically with
 * contrast, from 16 times to a sixteenth. A LINEAR width stays 1 or more.
 *
 * @param negative - Shown as a negative. Brightness still means lighter as displayed.
 */
export function lightAt(film: Film, { brightness, contrast }: Sliders, negative: boolean): Light {
  if (brightness === 0.5 && contrast === 0.5) return { ...defaultLight(film), negative };
  const rest = openingAtRest(film);
  const shown = { kind: 'window', ...rest } as const;
  const lighter = 2 * clamp(brightness, 0, 1) - 1;
  const direction = isInverted(film.grey, { shown, negative }) ? 1 : -1;
  const width = rest.width * CONTRAST_REACH ** (1 - 2 * clamp(contrast, 0, 1));
  return {
    shown: {
      ...shown,
      center: rest.center + direction * lighter * centerReach(film, rest),
      width: rest.function === 'LINEAR' ? Math.max(width, 1) : width,
      function: rest.function,
    },
    negative,
  };
}

/**
 * Where the sliders stand for a light: the inverse of `lightAt`. A window beyond their reach is clamped; a
 * table or the full range stands in the middle.
 */
export function slidersOf(film: Film, light: Light): Sliders {
  const { shown } = light;
  if (shown.kind !== 'window') return { brightness: 0.5, contrast: 0.5 };
  const rest = openingAtRest(film);
  const direction = isInverted(film.grey, light) ? 1 : -1;
  const lighter = (direction * (shown.center - rest.center)) / centerReach(film, rest);
  const steeper = Math.log(rest.width / shown.width) / Math.log(CONTRAST_REACH);
  return { brightness: clamp((lighter + 1) / 2, 0, 1), contrast: clamp((steeper + 1) / 2, 0, 1) };
}
