/**
 * Group labels as small whole numbers, so that counting needs no look-up by name.
 *
 * Labels that are all numbers are in ascending order, which makes a trend over them mean something; others
 * are in the order of their first row. Declared labels keep their order, and stay when no row has them.
 */
export type GroupLabel = number | string;

export interface GroupCodes {
  /** The labels: numbers ascending, otherwise in order of first appearance. */
  readonly labels: readonly GroupLabel[];
  /** For each row the position of its label. */
  readonly codes: Int32Array;
}

/** Labels below this, a power of two, are looked up in a table. */
const LARGEST_TABLED_LABEL = 4096;

/**
 * Codes a column of labels. `declared` fixes the labels and their order, and may hold labels that
 * no row has; a row with a label that is not declared is refused, as is a missing label, by the name of the
 * column.
 */
export function codeGroups(
  group: ArrayLike<GroupLabel>,
  declared?: readonly GroupLabel[],
  name = "group",
): GroupCodes {
  if (declared === undefined && group instanceof Int32Array) {
    const labels = consecutiveLabels(group);
    if (labels !== undefined) return { labels, codes: group };
  }
  return codeByName(group, declared ?? labelsOf(group, name), name);
}

/** How many rows carry each label. */
export function groupSizes({ labels, codes }: GroupCodes): Int32Array {
  const sizes = new Int32Array(labels.length);
  for (let i = 0; i < codes.length; i++) sizes[codes[i]!] = sizes[codes[i]!]! + 1;
  return sizes;
}

/** For each label the rows that carry it. */
export function rowsByCode({ labels, codes }: GroupCodes): Int32Array[] {
  const sizes = groupSizes({ labels, codes });
  const rows = Array.from(sizes, (size) => new Int32Array(size));
  sizes.fill(0);
  for (let i = 0; i < codes.length; i++) {
    const code = codes[i]!;
    const filled = sizes[code]!;
    rows[code]![filled] = i;
    sizes[code] = filled + 1;
  }
  return rows;
}

/** 0, 1, ..., k - 1 when a column holds all of them and nothing else: it is then its own codes. */
function consecutiveLabels(group: Int32Array): readonly number[] | undefined {
  // 0 to k - 1 in so many rows take a table no longer than they are, made up to a power of two
  const most = 2 ** (32 - Math.clz32(group.length));
  const seen = seenLabels(group, Math.min(most, LARGEST_TABLED_LABEL)) ?? seenLabels(group, most);
  if (seen === undefined) return undefined;
  let last = seen.length - 1;
  while (last >= 0 && seen[last] === 0) last--;
  const labels: number[] = [];
  for (let label = 0; label <= last; label++) {
    if (seen[label] === 0) return undefined;
    labels.push(label);
  }
  return labels;
}

/** Which of the labels from 0 to below `size`, a power of two, occur; undefined where any other does. */
function seenLabels(group: Int32Array, size: number): Uint8Array | undefined {
  const isSeen = new Uint8Array(size);
  const within = size - 1;
  // a label outside, negative ones too, shows in a bit above those of the table
  let bits = 0;
  const whole = group.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    const a = group[i]!;
    const b = group[i + 1]!;
    const c = group[i + 2]!;
    const d = group[i + 3]!;
    bits |= a | b | c | d;
    isSeen[a & within] = 1;
    isSeen[b & within] = 1;
    isSeen[c & within] = 1;
    isSeen[d & within] = 1;
  }
  for (let i = whole; i < group.length; i++) {
    bits |= group[i]!;
    isSeen[group[i]! & within] = 1;
  }
  // no label is above all their bits together
  return (bits & ~within) === 0 ? isSeen.subarray(0, bits + 1) : undefined;
}

function codeByName(
  group: ArrayLike<GroupLabel>,
  labels: readonly GroupLabel[],
  name: string,
): GroupCodes {
  const codeOf = new Map(labels.map((label, code) => [label, code]));
  const table = smallLabelTable(labels);
  const codes = new Int32Array(group.length);
  for (let i = 0; i < group.length; i++) {
    const label = group[i]!;
    const code = (typeof label === "number" ? table?.[label] : undefined) ?? codeOf.get(label);
    if (code === undefined) {
      throw new RangeError(`${name}[${i}] is ${label}; expected one of ${labels.join(", ")}`);
    }
    codes[i] = code;
  }
  return { labels, codes };
}

function labelsOf(group: ArrayLike<GroupLabel>, name: string): readonly GroupLabel[] {
  const seen = new Set<GroupLabel>();
  const isSeen = new Uint8Array(LARGEST_TABLED_LABEL);
  let areNumbers = true;
  for (let i = 0; i < group.length; i++) {
    const label = group[i]!;
    if (typeof label === "number") {
      if (isSeen[label] === 1) continue;
      isSeen[label] = 1;
    } else areNumbers = false;
    if (label === undefined || label === null || Number.isNaN(label)) {
      throw new TypeError(`${name}[${i}] is missing; expected a label`);
    }
    seen.add(label);
  }
  const labels = [...seen];
  return areNumbers ? labels.sort((a, b) => (a as number) - (b as number)) : labels;
}

/** label -> code for labels that are small whole numbers, so that rows need no hashing. */
function smallLabelTable(labels: readonly GroupLabel[]): (number | undefined)[] | undefined {
  const isSmall = (label: GroupLabel) =>
    typeof label === "number" &&
    Number.isInteger(label) &&
    label >= 0 &&
    label < LARGEST_TABLED_LABEL;
  if (!labels.every(isSmall)) return undefined;
  const table: (number | undefined)[] = [];
  labels.forEach((label, code) => {
    table[label as number] = code;
  });
  return table;
}
