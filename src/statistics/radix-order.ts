/**
 * The order of a column of numbers of 0 or more, by a radix sort on their bits: such doubles sort as
 * whole numbers of 64 bits do (IEEE 754). Four passes of 16 bits, from the lowest; a pass in which all
 * values agree is left out. Stable, and linear in the number of rows.
 */
import { rowNumbers } from "./gather.ts";

const DIGITS = 0x10000;

/** Row numbers in ascending order of `values`, equal values in the order of their rows. */
export function radixOrder(values: Float64Array): Int32Array {
  const words = new Uint16Array(values.buffer, values.byteOffset, 4 * values.length);
  let order = rowNumbers(values.length);
  let spare = new Int32Array(values.length);
  const starts = new Int32Array(DIGITS);
  for (let word = 0; word < 4; word++) {
    if (!countDigits(words, word, starts)) continue;
    for (let k = 0; k < order.length; k++) {
      const row = order[k]!;
      const digit = words[4 * row + word]!;
      const place = starts[digit]!;
      spare[place] = row;
      starts[digit] = place + 1;
    }
    [order, spare] = [spare, order];
  }
  return order;
}

/** Where each digit's rows start; false when all rows have the same digit. */
function countDigits(words: Uint16Array, word: number, starts: Int32Array): boolean {
  starts.fill(0);
  const rows = words.length / 4;
  for (let i = word; i < words.length; i += 4) starts[words[i]!] = starts[words[i]!]! + 1;
  if (rows === 0 || starts[words[word]!] === rows) return false;
  let before = 0;
  for (let digit = 0; digit < DIGITS; digit++) {
    const count = starts[digit]!;
    starts[digit] = before;
    before += count;
  }
  return true;
}
