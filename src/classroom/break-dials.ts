import type { FractureSpec, InventedFilmSpec } from '../phantom/spec.ts';
import type { Dial, DialGroup, Key, SliderDial } from './dial.ts';

/** A slider over a number of the first fracture; it changes nothing where nothing is broken. */
const ofBreak = (
  key: Key<FractureSpec, number>,
  facts: Omit<SliderDial, 'kind' | 'get' | 'set' | 'group'> & { readonly group?: DialGroup },
): SliderDial => ({
  kind: 'slider',
  group: 'bend',
  ...facts,
  get: ({ fractures }) => fractures[0]?.[key] ?? 0,
  set: (spec, value) => withFracture(spec, { [key]: value }),
});

/** The spec with something else about its first fracture; unchanged where nothing is broken. */
function withFracture(spec: InventedFilmSpec, patch: Partial<FractureSpec>): InventedFilmSpec {
  const [first, ...others] = spec.fractures;
  return first === undefined ? spec : { ...spec, fractures: [{ ...first, ...patch }, ...others] };
}

/** How far the fragments are out of line. */
export const BEND: readonly Dial[] = [
  ofBreak('apexDorsalDegrees', {
    id: 'apexDorsal',
    name: 'Apex dorsal',
    teaches: 'The angle that a lateral view shows. Negative: apex volar.',
    from: -30,
    to: 80,
    step: 1,
    unit: '°',
  }),
  ofBreak('apexRadialDegrees', {
    id: 'apexRadial',
    name: 'Apex radial',
    teaches: 'The angle that a PA view shows. Negative: apex ulnar.',
    from: -35,
    to: 35,
    step: 1,
    unit: '°',
  }),
  ofBreak('axialTurnDegrees', {
    id: 'axialTurn',
    name: 'Rotation',
    teaches: 'Turn of the fragment about its own axis: it hardly shows on any film, and matters most.',
    from: -45,
    to: 45,
    step: 1,
    unit: '°',
  }),
  ofBreak('shorteningMm', {
    id: 'shortening',
    name: 'Shortening',
    teaches: 'How far the fragments have run together.',
    from: 0,
    to: 10,
    step: 0.5,
    unit: 'mm',
  }),
  ofBreak('translationDorsalMm', {
    id: 'translationDorsal',
    name: 'Shift dorsal',
    teaches: 'The distal fragment shifted sideways without tilting. Negative: volar.',
    from: -6,
    to: 6,
    step: 0.5,
    unit: 'mm',
  }),
  ofBreak('translationRadialMm', {
    id: 'translationRadial',
    name: 'Shift radial',
    teaches: 'The same, seen from the front. Negative: ulnar.',
    from: -6,
    to: 6,
    step: 0.5,
    unit: 'mm',
  }),
  {
    kind: 'pick',
    id: 'angleMeaning',
    group: 'bend',
    name: 'The angles above are',
    teaches:
      'A sound bone is bent too: the angle between the axes holds that bend, the turn of the fragment does not.',
    options: [
      { value: 'between-axes', name: 'between the axes' },
      { value: 'fragment-turn', name: 'the fragment’s turn' },
    ],
    get: ({ fractures }) => fractures[0]?.angleMeaning ?? 'between-axes',
    set: (spec, value) => withFracture(spec, { angleMeaning: value as FractureSpec['angleMeaning'] }),
  },
];

/** Where the break lies when the spec leaves it to chance, shown as the middle of that region. */
const USUAL_LEVEL: Readonly<Record<FractureSpec['region'], number>> = {
  head: 84,
  neck: 75,
  shaft: 50,
  base: 17,
};

/** What the break itself looks like. */
export const BREAK: readonly Dial[] = [
  {
    kind: 'slider',
    id: 'level',
    group: 'break',
    name: 'Level, from the base',
    teaches: 'The nearer the break lies to a joint, the shorter the lever and the less sure the angle.',
    from: 12,
    to: 88,
    step: 1,
    unit: '%',
    get: ({ fractures: [first] }) =>
      first === undefined ? 50 : Math.round(100 * (first.level ?? USUAL_LEVEL[first.region] / 100)),
    set: (spec, value) => withFracture(spec, { level: value / 100 }),
  },
  ofBreak('obliquityDegrees', {
    id: 'obliquity',
    group: 'break',
    name: 'Slope of the break',
    teaches: 'A sloping break slips and shortens; a square one holds.',
    from: -60,
    to: 60,
    step: 1,
    unit: '°',
  }),
  ofBreak('hinge', {
    id: 'hinge',
    group: 'break',
    name: 'Hinge',
    teaches:
      'Where the fragment swung about: at −1 the volar cortex, and the break gapes dorsally; at 1 the dorsal one.',
    from: -1,
    to: 1,
    step: 0.1,
    unit: '',
  }),
  ofBreak('gapMm', {
    id: 'gap',
    group: 'break',
    name: 'Gap',
    teaches: 'A cleft between the fragments.',
    from: 0,
    to: 3,
    step: 0.1,
    unit: 'mm',
  }),
  ofBreak('jagMm', {
    id: 'jag',
    group: 'break',
    name: 'Teeth of the break',
    teaches: 'Coarse teeth hide where the middle of the broken end lies.',
    from: 0,
    to: 2,
    step: 0.1,
    unit: 'mm',
  }),
  {
    kind: 'pick',
    id: 'fragments',
    group: 'break',
    name: 'Fragments',
    teaches: 'With a third fragment the axes end farther from the break.',
    options: [
      { value: 'two', name: 'two' },
      { value: 'butterfly', name: 'a wedge' },
      { value: 'comminuted', name: 'many' },
    ],
    get: ({ fractures }) => fractures[0]?.fragments ?? 'two',
    set: (spec, value) => withFracture(spec, { fragments: value as FractureSpec['fragments'] }),
  },
  {
    kind: 'slider',
    id: 'callus',
    group: 'break',
    name: 'Callus',
    teaches: 'Healing bone blurs the cortex that an axis is drawn by.',
    from: 0,
    to: 100,
    step: 5,
    unit: '%',
    get: ({ fractures }) => Math.round(100 * (fractures[0]?.callus ?? 0)),
    set: (spec, value) => withFracture(spec, { callus: value / 100 }),
  },
];
