import { type ProgramFormat, programFormat, startsWith } from "./program-format.ts";

/** A file's bytes as text, or why they are not text. */
export type Decoded =
  | {
      readonly ok: true;
      readonly text: string;
      readonly encoding: string;
      /** Broken sequences that were replaced by U+FFFD. */
      readonly broken: number;
    }
  | ({ readonly ok: false } & ProgramFormat);

/**
 * Text of a file: UTF-8 with or without mark, UTF-16 in either order with or without mark, or
 * Windows-1252 where the bytes are no UTF-8. Bytes of a program's own format are refused.
 */
export function decode(bytes: Uint8Array): Decoded {
  const program = programFormat(bytes);
  if (program !== undefined) return { ok: false, ...program };
  if (startsWith(bytes, [0xef, 0xbb, 0xbf])) return utf8(bytes.subarray(3), "UTF-8 with mark");
  if (startsWith(bytes, [0xff, 0xfe])) return textIn(bytes, "utf-16le", "UTF-16LE");
  if (startsWith(bytes, [0xfe, 0xff])) return textIn(bytes, "utf-16be", "UTF-16BE");
  const unmarked = unmarkedUtf16(bytes);
  if (unmarked !== undefined) return textIn(bytes, unmarked, unmarked.toUpperCase() as Utf16);
  return utf8(bytes, "UTF-8");
}

type Utf16 = "UTF-16LE" | "UTF-16BE";

function utf8(bytes: Uint8Array, encoding: string): Decoded {
  const lenient = textIn(bytes, "utf-8", encoding);
  if (!lenient.ok || lenient.broken === 0) return lenient;
  const sound = soundSequences(bytes);
  const isMostlyUtf8 = encoding !== "UTF-8" || sound > lenient.broken;
  return isMostlyUtf8 ? lenient : textIn(bytes, "windows-1252", "Windows-1252");
}

function textIn(bytes: Uint8Array, label: string, encoding: string): Decoded {
  const decoded = new TextDecoder(label).decode(bytes);
  const text = label === "windows-1252" ? withUpperSigns(decoded) : decoded;
  if (controlShare(text) > 0.01) return { ok: false, looksLike: "binary data", isWorkbook: false };
  return { ok: true, text, encoding, broken: count(text, "\ufffd") };
}

/** Bytes 0x80 to 0x9f of Windows-1252 (WHATWG Encoding, index windows-1252). */
const upperSigns =
  "\u20ac\x81\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\x8d\u017d\x8f" +
  "\x90\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\x9d\u017e\u0178";

/** Node 20 reads Windows-1252 as Latin-1, where these bytes are control characters. */
function withUpperSigns(text: string): string {
  return text.replaceAll(/[\x80-\x9f]/g, (sign) => upperSigns[sign.charCodeAt(0) - 0x80]!);
}

/** Sequences of several bytes that are sound UTF-8. */
function soundSequences(bytes: Uint8Array): number {
  let sound = 0;
  for (let i = 0; i < bytes.length; i++) {
    const length = sequenceLength(bytes[i]!);
    if (length < 2) continue;
    let next = 1;
    while (next < length && ((bytes[i + next] ?? 0) & 0xc0) === 0x80) next++;
    if (next === length) sound++;
    i += next - 1;
  }
  return sound;
}

function sequenceLength(first: number): number {
  if (first >= 0xc2 && first <= 0xdf) return 2;
  if (first >= 0xe0 && first <= 0xef) return 3;
  return first >= 0xf0 && first <= 0xf4 ? 4 : 1;
}

/** UTF-16 without its mark: of plain Western text, every other byte is zero. */
function unmarkedUtf16(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  const looked = Math.min(bytes.length, 4096) & ~1;
  if (looked < 4) return undefined;
  const zeros: [number, number] = [0, 0];
  for (let i = 0; i < looked; i++) if (bytes[i] === 0) zeros[i % 2 === 0 ? 0 : 1]++;
  const [even, odd] = zeros;
  if (odd > looked * 0.4 && even < looked * 0.05) return "utf-16le";
  if (even > looked * 0.4 && odd < looked * 0.05) return "utf-16be";
  return undefined;
}

/** Share of control characters other than tab and line ends. */
function controlShare(text: string): number {
  let controls = 0;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  for (const _ of text.matchAll(/[\0-\x08\x0b\x0c\x0e-\x1f]/g)) controls++;
  return text.length === 0 ? 0 : controls / text.length;
}

function count(text: string, wanted: string): number {
  let found = 0;
  for (let at = text.indexOf(wanted); at >= 0; at = text.indexOf(wanted, at + 1)) found++;
  return found;
}
