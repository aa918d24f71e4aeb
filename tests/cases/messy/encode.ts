import type { Mess } from "./mess.ts";

type TextEncoding = Exclude<Mess["encoding"], "workbook" | "workbook since 1904">;

/** A text as bytes. */
export function encode(text: string, encoding: TextEncoding): Uint8Array {
  switch (encoding) {
    case "UTF-8":
      return new TextEncoder().encode(text);
    case "UTF-8 with mark":
      return new TextEncoder().encode(`\ufeff${text}`);
    case "Windows-1252":
      return Uint8Array.from(text, (sign) => sign.charCodeAt(0));
    case "UTF-16LE without mark":
      return utf16(text, true);
    default:
      return utf16(`\ufeff${text}`, encoding === "UTF-16LE");
  }
}

function utf16(text: string, isLittleEndian: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(text.length * 2));
  for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), isLittleEndian);
  return new Uint8Array(view.buffer);
}
