import { create, unitDependencies } from 'mathjs';
import { failure, type Result, success } from './result.ts';
import { type Millimetres, millimetres } from './units.ts';

/*
 * Apart from `known-size.ts` because the units of mathjs are large and are needed only once somebody types a
 * size: the app imports this file then.
 */
const { unit } = create({ ...unitDependencies });

/** What a typed length may be, in mm: outside, it is a slip of the keyboard or of the unit. */
interface SizeRange {
  readonly smallest: number;
  readonly largest: number;
}

/** An object on a film. */
const OBJECT: SizeRange = { smallest: 2, largest: 500 };
/** How far such an object may be off its size. */
const GIVE_OR_TAKE: SizeRange = { smallest: 0, largest: 50 };

export type SizeFailure =
  | { readonly kind: 'size-without-number'; readonly text: string }
  | { readonly kind: 'size-without-unit'; readonly text: string }
  | { readonly kind: 'size-unit-unknown'; readonly text: string; readonly unit: string }
  | { readonly kind: 'size-not-a-length'; readonly text: string; readonly unit: string }
  | {
      readonly kind: 'size-out-of-range';
      readonly text: string;
      readonly millimetres: number;
      readonly smallest: number;
      readonly largest: number;
    };

/** Says what was typed, why it is no size, and what to type. */
export function sizeFailureSentence(error: SizeFailure): string {
  const example = 'Type a number and its unit, such as 24 mm or 1 in.';
  switch (error.kind) {
    case 'size-without-number':
      return error.text.trim() === '' ? example : `“${error.text}” holds no plain number. ${example}`;
    case 'size-without-unit':
      return `“${error.text}” has no unit, and is not taken for millimetres. ${example}`;
    case 'size-unit-unknown':
      return `“${error.unit}” is not a unit known here. ${example}`;
    case 'size-not-a-length':
      return `“${error.unit}” is not a unit of length. ${example}`;
    case 'size-out-of-range':
      return `“${error.text}” is ${Number(error.millimetres.toPrecision(3))} mm; between ${error.smallest} and ${error.largest} mm is expected. Check the number and its unit.`;
  }
}

/** One number without sign, exponent or thousands, then letters only: nothing that could be an expression. */
const NUMBER_AND_UNIT = /^(\d+(?:[.,]\d+)?)\s*([a-z]*)$/i;

/**
 * Reads a size typed with its unit, such as `24 mm`, `2.4 cm` or `1 in`. A comma is read as a decimal point.
 *
 * Fails with `size-without-number`, `size-without-unit` (a bare number is never taken for millimetres),
 * `size-unit-unknown`, `size-not-a-length` (`24 kg`), and `size-out-of-range` outside 2 to 500 mm.
 */
export const parseSize = (text: string): Result<Millimetres, SizeFailure> => parseLength(text, OBJECT);

/** Reads how far an object may be off its size, typed in the same way; 0 to 50 mm. Nothing typed is 0. */
export const parseGiveOrTake = (text: string): Result<Millimetres, SizeFailure> =>
  text.trim() === '' ? success(millimetres(0)) : parseLength(text, GIVE_OR_TAKE);

function parseLength(text: string, { smallest, largest }: SizeRange): Result<Millimetres, SizeFailure> {
  const [, digits, name] = NUMBER_AND_UNIT.exec(text.trim()) ?? [];
  if (digits === undefined || name === undefined) return failure({ kind: 'size-without-number', text });
  if (name === '') return failure({ kind: 'size-without-unit', text });
  const one = unitNamed(name.toLowerCase());
  if (one === null) return failure({ kind: 'size-unit-unknown', text, unit: name });
  if (!one.equalBase(unit(1, 'mm'))) return failure({ kind: 'size-not-a-length', text, unit: name });
  const size = Number(digits.replace(',', '.')) * one.toNumber('mm');
  return size < smallest || size > largest
    ? failure({ kind: 'size-out-of-range', text, millimetres: size, smallest, largest })
    : success(millimetres(size));
}

function unitNamed(name: string) {
  try {
    return unit(1, name);
  } catch (error) {
    // What mathjs throws for a name it does not know; anything else is not about the name.
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}
