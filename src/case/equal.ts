/**
 * Whether two plain values (what JSON can hold) have the same structure and content.
 *
 * The order of an object's fields does not count; a field that is absent and one that is `undefined` count
 * as the same, because a file cannot tell them apart. The same holds for 0 and −0.
 */
export function sameStructure(one: unknown, other: unknown): boolean {
  if (one === other || Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  if (Array.isArray(one) && Array.isArray(other)) {
    return one.length === other.length && one.every((item, index) => sameStructure(item, other[index]));
  }
  const left = one as Readonly<Record<string, unknown>>;
  const right = other as Readonly<Record<string, unknown>>;
  for (const key of new Set([...Object.keys(left), ...Object.keys(right)])) {
    if (!sameStructure(own(left, key), own(right, key))) return false;
  }
  return true;
}

const own = (value: Readonly<Record<string, unknown>>, key: string): unknown =>
  Object.hasOwn(value, key) ? value[key] : undefined;
