/**
 * The order of a column of numbers of 0 or more, by a radix sort on their bits: such doubles sort as
 * whole numbers of 64 bits do (IEEE 754). Two passes over the upper 32 bits leave only values apart by
 * under a millionth out of order, which an insertion sort puts right; where there are many of those, all
 * four passes are made. Stable, and linear in the number of rows.
 */
import { rowNumbers } from "./gather.ts";

const DIGITS = 0x10000;

/** Row numbers in ascending order of `values`, equal values in the order of their rows. */
export function radixOrder(values: Float64Array): Int32Array {
  const upper = sortByWords(values, [2, 3]);
  return insertionSort(values, upper) ? upper : sortByWords(values, [0, 1, 2, 3]);
}

/** Sorts by 16-bit words of the values, the lowest first. */
function sortByWords(values: Float64Array, which: readonly number[]): Int32Array {
  const words = new Uint16Array(values.buffer, values.byteOffset, 4 * values.length);
  let order: Int32Array = rowNumbers(values.length);
  let spare: Int32Array = new Int32Array(values.length);
  const starts = new Int32Array(DIGITS);
  for (const word of which) {
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

/** Puts a nearly sorted order right, in place; false when it would take more than 4 moves a row. */
function insertionSort(values: Float64Array, order: Int32Array): boolean {
  let moves = 4 * order.length;
  for (let k = 1; k < order.length; k++) {
    const row = order[k]!;
    const value = values[row]!;
    let place = k;
    while (place > 0 && values[order[place - 1]!]! > value) {
      order[place] = order[place - 1]!;
      place--;
      if (moves-- === 0) return false;
    }
    order[place] = row;
  }
  return true;
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
