import { expect } from 'vitest';
import { IDENTITIES, INSTANCE_UIDS, SERIES_UID, STUDY_UID } from './sample.ts';

/** The texts to look for: values of one word or number, each part of a name, and the UIDs. */
export const IDENTIFYING_TEXTS: readonly string[] = [
  ...IDENTITIES.flatMap(([, vr, value]) => (vr === 'PN' ? value.split('^') : [value])),
  STUDY_UID,
  SERIES_UID,
  ...Object.values(INSTANCE_UIDS),
];

/** Looks for every identifying text in every byte, as Latin-1 or UTF-8 and as UTF-16 of either order, in any case. */
export function expectNoIdentity(content: Uint8Array | string): void {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  expect(textsIn(bytes, IDENTIFYING_TEXTS)).toEqual([]);
}

/** Those of the texts that stand in the bytes. */
export function textsIn(bytes: Uint8Array, texts: readonly string[]): readonly string[] {
  const readings = [
    new TextDecoder('latin1').decode(bytes),
    new TextDecoder('utf-16le').decode(bytes),
    new TextDecoder('utf-16le').decode(bytes.subarray(1)),
    new TextDecoder('utf-16be').decode(bytes),
    new TextDecoder('utf-16be').decode(bytes.subarray(1)),
  ].map((text) => text.toLowerCase());
  return texts.filter((text) => readings.some((reading) => reading.includes(text.toLowerCase())));
}
