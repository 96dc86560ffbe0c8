import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inFolder, outputOf } from '../../outside-tools.ts';

/** Writes ICC profiles by ICC.1:2022: header (7.2), tag table (7.3), tag types (10). */
export type Tags = Readonly<Record<string, Buffer>>;

const ascii = (text: string) => Buffer.from(text, 'latin1');

/** s15Fixed16Number (4.6). */
const fixed = (values: readonly number[]) => {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, i) => void bytes.writeInt32BE(Math.round(value * 65_536), 4 * i));
  return bytes;
};

const shorts = (values: readonly number[]) => {
  const bytes = Buffer.alloc(2 * values.length);
  values.forEach((value, i) => void bytes.writeUInt16BE(value, 2 * i));
  return bytes;
};

const count = (value: number) => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};

/** curveType (10.6): no entry, an exponent in 256ths, or 16-bit entries. */
export const curv = (...entries: readonly number[]): Buffer =>
  Buffer.concat([ascii('curv\0\0\0\0'), count(entries.length), shorts(entries)]);

/** parametricCurveType (10.18). */
export const para = (type: number, ...parameters: readonly number[]): Buffer =>
  Buffer.concat([ascii('para\0\0\0\0'), shorts([type, 0]), fixed(parameters)]);

/** XYZType (10.31). */
export const xyz = (...values: readonly number[]): Buffer =>
  Buffer.concat([ascii('XYZ \0\0\0\0'), fixed(values)]);

const D50 = [0.9642, 1, 0.8249] as const;

export interface ProfileParts {
  readonly space: string;
  readonly tags: Tags;
  readonly connection?: string;
  readonly profileClass?: string;
}

export function iccFile({ space, tags, connection = 'XYZ ', profileClass = 'mntr' }: ProfileParts): Buffer {
  const all = Object.entries({ wtpt: xyz(...D50), ...tags });
  const header = Buffer.alloc(128);
  header.writeUInt32BE(0x04300000, 8);
  header.set(ascii(profileClass), 12);
  header.set(ascii(space), 16);
  header.set(ascii(connection), 20);
  header.set(ascii('acsp'), 36);
  header.set(fixed(D50), 68);
  let offset = 132 + 12 * all.length;
  const table: Buffer[] = [count(all.length)];
  const data: Buffer[] = [];
  for (const [name, tag] of all) {
    const padded = Buffer.concat([tag, Buffer.alloc((4 - (tag.length % 4)) % 4)]);
    table.push(ascii(name), count(offset), count(tag.length));
    data.push(padded);
    offset += padded.length;
  }
  header.writeUInt32BE(offset, 0);
  return Buffer.concat([header, ...table, ...data]);
}

export const greyProfile = (curve: Buffer): Buffer => iccFile({ space: 'GRAY', tags: { kTRC: curve } });

type Three<Value> = readonly [Value, Value, Value];

export const colourProfile = (
  colorants: Three<Three<number>>,
  [red, green, blue]: Three<Buffer>,
  more: Tags = {},
): Buffer =>
  iccFile({
    space: 'RGB ',
    tags: {
      rXYZ: xyz(...colorants[0]),
      gXYZ: xyz(...colorants[1]),
      bXYZ: xyz(...colorants[2]),
      rTRC: red,
      gTRC: green,
      bTRC: blue,
      ...more,
    },
  });

/** IEC 61966-2-1 as a function of type 3; its parameters are the formula's. */
export const SRGB_CURVE = para(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045);

/** Primaries turned to D50 as the ICC's own sRGB profile has them; from memory, and lcms agrees (to-srgb.test.ts). */
export const SRGB_COLORANTS = [
  [0.43607, 0.22249, 0.01392],
  [0.38515, 0.71687, 0.09708],
  [0.14307, 0.06061, 0.7141],
] as const;

export const srgbProfile = (): Buffer => colourProfile(SRGB_COLORANTS, [SRGB_CURVE, SRGB_CURVE, SRGB_CURVE]);

/** 2.19921875 = 563 / 256. */
export const GAMMA_563 = curv(563);

/** The primaries of Adobe RGB (1998), turned to D50, and its exponent; from memory of Adobe's specification of 2005. */
export const wideProfile = (): Buffer =>
  colourProfile(
    [
      [0.60974, 0.31111, 0.01947],
      [0.20528, 0.62567, 0.06087],
      [0.14919, 0.06322, 0.74457],
    ],
    [GAMMA_563, GAMMA_563, GAMMA_563],
  );

/**
 * Little CMS (Debian package liblcms2-utils): colours of the profile as sRGB, each 0 to 255, clipped and not
 * rounded, relative to white.
 */
export const throughLcms = (
  profile: Uint8Array,
  colours: readonly (readonly number[])[],
): readonly Three<number>[] =>
  inFolder((folder) => {
    const path = join(folder, 'in.icc');
    writeFileSync(path, profile);
    const numbers = colours.map((colour) => `${colour.join('\n')}\n`).join('');
    return outputOf('transicc', [`-i${path}`, '-o*sRGB', '-t1', '-c0', '-s', '-n'], numbers)
      .trim()
      .split('\n')
      .map((line) => {
        const [red, green, blue] = line.trim().split(/\s+/).map(Number);
        return [red!, green!, blue!];
      });
  });
