import type { Piece } from "./piece.ts";

export function readNumber(piece: Piece): void {
  const written = piece.source.replace(/\s/g, "");
  const value = numberOf(written);
  if (!Number.isFinite(value)) {
    piece.fault("number-too-large", {
      message: "this number is too large to reckon with.",
      found: written,
      expected: "a number below 1.8e308",
    });
  }
  piece.token("number", written, Number.isFinite(value) ? value : 0);
}

/** Exact to the last digit: `33.3%` is read as the decimal 33.3e-2, not divided by 100. */
function numberOf(written: string): number {
  if (!written.endsWith("%")) return Number(written);
  const digits = written.slice(0, -1);
  return /[eE]/.test(digits) ? Number(digits) / 100 : Number(`${digits}e-2`);
}

export function readNumberWithoutWhole(piece: Piece): void {
  const written = `0${piece.source}`;
  piece.fault("number-form", {
    message: "a number begins with a digit, before the decimal point.",
    found: piece.source,
    expected: written,
    replacement: written,
  });
  piece.token("number", written, Number(written));
}

export function readGroupedNumber(piece: Piece): void {
  const written = piece.source.replaceAll(",", "");
  piece.fault("number-form", {
    message: "thousands are not parted in a number.",
    found: piece.source,
    expected: written,
    replacement: written,
  });
  piece.token("number", written, Number(written));
}
