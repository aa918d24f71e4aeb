import { describe, expect, test } from "vitest";
import { decode } from "../../src/cases/decode.ts";

function utf16(text: string, isLittleEndian: boolean, mark: boolean): Uint8Array {
  const units = [...(mark ? [0xfeff] : []), ...[...text].map((c) => c.charCodeAt(0))];
  const view = new DataView(new ArrayBuffer(units.length * 2));
  units.forEach((unit, i) => {
    view.setUint16(i * 2, unit, isLittleEndian);
  });
  return new Uint8Array(view.buffer);
}

const utf8 = (text: string) => new TextEncoder().encode(text);

/** The start of each file in a zip file, its name in it: once there and once in the list at the end. */
function zipOf(...names: string[]): number[] {
  const headers = names.map((name) => [0x50, 0x4b, 3, 4, ...new Array(26).fill(0), ...utf8(name)]);
  const list = names.map((name) => [0x50, 0x4b, 1, 2, ...new Array(42).fill(0), ...utf8(name)]);
  return [...headers, ...list].flat();
}

describe("decoding", () => {
  test("UTF-8 without and with its mark", () => {
    const plain = decode(utf8("Müller;Å"));
    expect(plain).toEqual({ ok: true, text: "Müller;Å", encoding: "UTF-8", broken: 0 });
    const marked = decode(utf8("\ufeffMüller"));
    expect(marked).toEqual({ ok: true, text: "Müller", encoding: "UTF-8 with mark", broken: 0 });
  });

  test.each([
    [true, true, "UTF-16LE"],
    [false, true, "UTF-16BE"],
    [true, false, "UTF-16LE"],
    [false, false, "UTF-16BE"],
  ])("UTF-16, little endian %s, marked %s", (isLittleEndian, mark, encoding) => {
    const decoded = decode(utf16("eye,age\nright,ü5\n", isLittleEndian, mark));
    expect(decoded).toEqual({ ok: true, text: "eye,age\nright,ü5\n", encoding, broken: 0 });
  });

  test("bytes that are no UTF-8 are Windows-1252", () => {
    const decoded = decode(Uint8Array.of(0x4d, 0xfc, 0x6c, 0x6c, 0x65, 0x72, 0x20, 0x80));
    expect(decoded).toEqual({ ok: true, text: "Müller €", encoding: "Windows-1252", broken: 0 });
  });

  test("one broken byte does not spoil a file that is otherwise UTF-8", () => {
    const decoded = decode(Uint8Array.of(...utf8("Müller Größe "), 0xff, 0x41));
    expect(decoded).toEqual({
      ok: true,
      text: "Müller Größe \ufffdA",
      encoding: "UTF-8",
      broken: 1,
    });
  });

  test.each([
    ["a zip file", [0x50, 0x4b, 3, 4, 20, 0], false],
    ["a workbook (.xlsx)", zipOf("xl/workbook.xml", "xl/worksheets/sheet1.xml"), true],
    [
      "a workbook (.xlsx) with 2 sheets",
      zipOf("xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/workbook.xml"),
      true,
    ],
    ["a workbook (.ods)", zipOf("mimetypeapplication/vnd.oasis.opendocument.spreadsheet"), true],
    ["an old workbook (.xls), or one with a password", [0xd0, 0xcf, 0x11, 0xe0, 0xa1], true],
    ["a PDF", [...utf8("%PDF-1.7 text")], false],
    ["binary data", Array.from({ length: 300 }, (_, i) => i % 7), false],
  ])("%s is refused", (looksLike, bytes, isWorkbook) => {
    expect(decode(Uint8Array.from(bytes))).toEqual({ ok: false, looksLike, isWorkbook });
  });

  test("no bytes are no text", () => {
    expect(decode(new Uint8Array())).toEqual({ ok: true, text: "", encoding: "UTF-8", broken: 0 });
  });
});
