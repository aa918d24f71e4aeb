import type { Behind } from "./attack.ts";

/** Counts patients: the file alone says whose the row on a line is. */
export function patientsBy(bytes: Uint8Array): Behind {
  const lines = new TextDecoder().decode(bytes).split(/\r?\n/);
  return (rows) => new Set([...rows].map((line) => lines[line - 1]?.split(",")[1])).size;
}
