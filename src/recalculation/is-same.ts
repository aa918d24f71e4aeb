/**
 * Whether two values are the same for all who read them: plain data by what they hold, things
 * (a table of cases, a set of eyes, an answer) by identity. A number that is not one is the same
 * as itself; 0 and -0 are different.
 */
export function isSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object") return false;
  if (one === null || other === null || isThing(one) || isThing(other)) return false;
  if (Array.isArray(one) || Array.isArray(other)) return isSameList(one, other);
  if (one instanceof Map && other instanceof Map) return isSameMap(one, other);
  if (!isPlain(one) || !isPlain(other)) return false;
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && isSame(valueAt(one, key), valueAt(other, key)))
  );
}

function isSameList(one: unknown, other: unknown): boolean {
  if (!Array.isArray(one) || !Array.isArray(other) || one.length !== other.length) return false;
  return one.every((item, index) => isSame(item, other[index]));
}

/** Whatever the order of the entries. */
function isSameMap(one: ReadonlyMap<unknown, unknown>, other: typeof one): boolean {
  if (one.size !== other.size) return false;
  return [...one].every(([key, value]) => other.has(key) && isSame(value, other.get(key)));
}

/** A record as written; anything of a class is compared by identity alone. */
function isPlain(value: object): boolean {
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function isThing(value: object): boolean {
  return "kind" in value && value.kind === "thing";
}

function valueAt(record: object, key: string): unknown {
  return (record as Readonly<Record<string, unknown>>)[key];
}
