/**
 * Records of values as text, by RFC 4180 and nothing else: what `writeRecords` writes,
 * `readRecords` reads back, whatever the values hold. For files of our own; files of cases, which
 * depart from the standard in every way, have a reader that forgives.
 */
export function writeRecords(records: readonly (readonly string[])[]): string {
  return records.map((record) => `${record.map(written).join(",")}\r\n`).join("");
}

function written(value: string): string {
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}

/** A record and the line that it begins on, counted from 1. */
export interface ReadRecord {
  readonly line: number;
  readonly values: readonly string[];
}

/** One value and the sign that ends it: quoted or plain; delimiter, line end or end of text. */
const value = /(?:"((?:[^"]|"")*)"|([^,\r\n]*))(,|\r\n|\n|\r|$)/y;

/** Records of a text; undefined where a quote is left open or text follows one. */
export function readRecords(text: string): readonly ReadRecord[] | undefined {
  const records: ReadRecord[] = [];
  let line = 1;
  let values: string[] = [];
  let start = line;
  value.lastIndex = 0;
  while (value.lastIndex < text.length || values.length > 0) {
    const found = value.exec(text);
    if (found === null) return undefined;
    values.push(found[1]?.replaceAll('""', '"') ?? found[2]!);
    line += lineEndsIn(found[0]);
    if (found[3] === ",") continue;
    records.push({ line: start, values });
    values = [];
    start = line;
  }
  return records;
}

function lineEndsIn(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}
