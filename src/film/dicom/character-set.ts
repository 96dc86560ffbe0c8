/**
 * Text by Specific Character Set (0008,0005): PS3.3 C.12.1.1.2, PS3.5 6.1 and the code extensions of
 * ISO/IEC 2022. Only what is shown or compared is decoded with it.
 */

/** Decoder labels (WHATWG Encoding) of the sets that need no escapes; both spellings of a set read alike. */
const SINGLE: ReadonlyMap<string, string> = new Map(
  Object.entries({
    '': 'latin1',
    'IR 6': 'latin1',
    'IR 100': 'iso-8859-1',
    'IR 101': 'iso-8859-2',
    'IR 109': 'iso-8859-3',
    'IR 110': 'iso-8859-4',
    'IR 144': 'iso-8859-5',
    'IR 127': 'iso-8859-6',
    'IR 126': 'iso-8859-7',
    'IR 138': 'iso-8859-8',
    'IR 148': 'iso-8859-9',
    'IR 203': 'iso-8859-15',
    'IR 13': 'shift_jis',
    'IR 166': 'windows-874',
    'IR 192': 'utf-8',
    GB18030: 'gb18030',
    GBK: 'gbk',
  }),
);

/** How the bytes of one code element (the lower half G0, or the upper half G1) are read. */
type Reading =
  | { readonly kind: 'label'; readonly label: string }
  /** 94 × 94 characters in the lower half: read as EUC-JP with the high bits set. */
  | { readonly kind: 'euc-jp-lower'; readonly prefix: number | null };

/** Escape sequences of PS3.3 table C.12-3 and C.12-4: which half they set, and how it is then read. */
const ESCAPES: readonly (readonly [sequence: string, half: 'lower' | 'upper', reading: Reading])[] = [
  ['(B', 'lower', { kind: 'label', label: 'latin1' }],
  ['(J', 'lower', { kind: 'label', label: 'shift_jis' }],
  ['$B', 'lower', { kind: 'euc-jp-lower', prefix: null }],
  ['$@', 'lower', { kind: 'euc-jp-lower', prefix: null }],
  ['$(D', 'lower', { kind: 'euc-jp-lower', prefix: 0x8f }],
  [')I', 'upper', { kind: 'label', label: 'shift_jis' }],
  ['$)C', 'upper', { kind: 'label', label: 'euc-kr' }],
  ['$)A', 'upper', { kind: 'label', label: 'gb18030' }],
  ['-A', 'upper', { kind: 'label', label: 'iso-8859-1' }],
  ['-B', 'upper', { kind: 'label', label: 'iso-8859-2' }],
  ['-C', 'upper', { kind: 'label', label: 'iso-8859-3' }],
  ['-D', 'upper', { kind: 'label', label: 'iso-8859-4' }],
  ['-L', 'upper', { kind: 'label', label: 'iso-8859-5' }],
  ['-G', 'upper', { kind: 'label', label: 'iso-8859-6' }],
  ['-F', 'upper', { kind: 'label', label: 'iso-8859-7' }],
  ['-H', 'upper', { kind: 'label', label: 'iso-8859-8' }],
  ['-M', 'upper', { kind: 'label', label: 'iso-8859-9' }],
  ['-b', 'upper', { kind: 'label', label: 'iso-8859-15' }],
  ['-T', 'upper', { kind: 'label', label: 'windows-874' }],
];

const ESCAPE = 0x1b;
/** PS3.5 6.1.2.5.3: the sets of value 1 hold again after a line end, a new value or a new part of a name. */
const RESETS = new Set([0x09, 0x0a, 0x0c, 0x0d, 0x3d, 0x5c, 0x5e]);

const plainName = (term: string) => term.replace(/^ISO_IR /, 'IR ').replace(/^ISO 2022 /, '');

function decodeRun(run: Uint8Array, reading: Reading): string {
  if (reading.kind === 'label') return new TextDecoder(reading.label).decode(run);
  const raised: number[] = [];
  run.forEach((byte, index) => {
    if (reading.prefix !== null && index % 2 === 0) raised.push(reading.prefix);
    raised.push(byte | 0x80);
  });
  return new TextDecoder('euc-jp').decode(new Uint8Array(raised));
}

function withEscapes(bytes: Uint8Array, initial: Reading): string {
  const defaults = { lower: { kind: 'label', label: 'latin1' } as Reading, upper: initial };
  let lower = defaults.lower;
  let upper = defaults.upper;
  let text = '';
  let start = 0;
  let at = 0;
  const flush = (end: number) => {
    // A two-byte set in the lower half owns every byte; else lower bytes are ASCII in every upper set.
    const reading = lower.kind === 'euc-jp-lower' ? lower : upper;
    text += decodeRun(bytes.subarray(start, end), reading);
    start = end;
  };
  while (at < bytes.length) {
    const byte = bytes[at] as number;
    if (byte === ESCAPE) {
      flush(at);
      const rest = String.fromCharCode(...bytes.subarray(at + 1, at + 4));
      const known = ESCAPES.find(([sequence]) => rest.startsWith(sequence));
      if (known?.[1] === 'lower') lower = known[2];
      if (known?.[1] === 'upper') upper = known[2];
      at += 1 + (known?.[0].length ?? 0);
      start = at;
    } else if (lower.kind !== 'euc-jp-lower' && RESETS.has(byte)) {
      flush(at);
      ({ lower, upper } = defaults);
      at++;
    } else {
      at++;
    }
  }
  flush(bytes.length);
  return text;
}

/**
 * Decodes the bytes of a text value. Bytes that a set cannot hold become U+FFFD; an unknown set is read as
 * Latin-1, so that ASCII stays legible.
 *
 * @param specificCharacterSets - Values of (0008,0005), in order; empty means the default repertoire.
 * @see PS3.5 Annex H (Japanese), I (Korean), J and K (Chinese), whose examples are in the tests.
 */
export function decodeText(bytes: Uint8Array, specificCharacterSets: readonly string[]): string {
  const label = SINGLE.get(plainName(specificCharacterSets[0] ?? '')) ?? 'latin1';
  const extended = specificCharacterSets.length > 1 || specificCharacterSets[0]?.startsWith('ISO 2022');
  return extended ? withEscapes(bytes, { kind: 'label', label }) : new TextDecoder(label).decode(bytes);
}
