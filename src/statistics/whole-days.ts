/**
 * Follow-up in whole days and events as bytes: the shapes in which rows can be counted in a table of
 * days, without a sort. Columns of one type each keep the loops that count free of checks of type.
 */
import { readEvent, refuseNumber } from "./argument-checks.ts";

export interface WholeDays {
  readonly days: Int32Array;
  /** The largest of them; 0 for no rows. */
  readonly last: number;
}

/**
 * The times as whole days, when they all are and a table of days is affordable; undefined otherwise.
 * Refuses a time that is negative, infinite or missing, with its row.
 */
export function wholeDays(time: ArrayLike<number>): WholeDays | undefined {
  const days = time instanceof Int32Array ? time : convertDays(time);
  if (days === undefined) return undefined;
  let last = 0;
  let signs = 0;
  // four at a time, as in the other passes over all rows: the loop itself would take as long as its work
  const whole = days.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    const a = days[i]!;
    const b = days[i + 1]!;
    const c = days[i + 2]!;
    const d = days[i + 3]!;
    signs |= a | b | c | d;
    if (a > last) last = a;
    if (b > last) last = b;
    if (c > last) last = c;
    if (d > last) last = d;
  }
  for (let i = whole; i < days.length; i++) {
    signs |= days[i]!;
    if (days[i]! > last) last = days[i]!;
  }
  if (signs < 0) {
    const row = days.findIndex((day) => day < 0);
    refuseNumber(`time[${row}]`, days[row], 0);
  }
  return last <= 8 * days.length + 1000 ? { days, last } : undefined;
}

/** The events as bytes of 1 and 0; anything but 1, 0, true and false is refused with its row. */
export function eventBytes(event: ArrayLike<number | boolean>): Uint8Array {
  if (event instanceof Uint8Array && areBinary(event)) return event;
  const bytes = new Uint8Array(event.length);
  for (let i = 0; i < bytes.length; i++) {
    const value = event[i];
    bytes[i] = value === 1 || value === 0 ? value : readEvent(value, i);
  }
  return bytes;
}

/** Whether every byte is 0 or 1, by words of four bytes where they lie so. */
function areBinary(bytes: Uint8Array): boolean {
  const words =
    bytes.byteOffset % 4 === 0
      ? new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2)
      : new Uint32Array(0);
  let bits = 0;
  for (let i = 0; i < words.length; i++) bits |= words[i]!;
  for (let i = 4 * words.length; i < bytes.length; i++) bits |= bytes[i]!;
  return (bits & 0xfefefefe) === 0;
}

/** Undefined at the first time that is not whole; every time is checked all the same. */
function convertDays(time: ArrayLike<number>): Int32Array | undefined {
  const days = new Int32Array(time.length);
  for (let i = 0; i < days.length; i++) {
    const value = time[i]!;
    const day = value | 0;
    days[i] = day;
    if (day !== value || day < 0) {
      requireTimes(time, i);
      return undefined;
    }
  }
  return days;
}

function requireTimes(time: ArrayLike<number>, from: number): void {
  for (let i = from; i < time.length; i++) {
    const value = time[i]!;
    if (!(value >= 0 && value < Infinity)) refuseNumber(`time[${i}]`, value, 0);
  }
}
