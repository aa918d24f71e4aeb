import type { Problem } from "../../problem/problem.ts";

/** Bytes of a secret: as many as SHA-256 gives, which more would not make stronger. */
export const secretBytes = 32;

const title = "Key of patients' codes";
const advice = [
  "Whoever has this key and a patient's number can work out that patient's code.",
  "Keep it where the case files are kept, and nowhere else. Without it the codes cannot be made again.",
];

/** A secret as a small text file: what it is, then its bytes in groups with a check at the end. */
export function writeSecret(secret: Uint8Array): string {
  const groups = inGroups(`${inHex(secret)}${checkOf(secret)}`);
  const half = groups.length / 2;
  const lines = [groups.slice(0, Math.ceil(half)), groups.slice(Math.ceil(half))];
  return [title, "", ...advice, "", ...lines.map((line) => line.join(" ")), ""].join("\n");
}

export type ReadSecret =
  | { readonly ok: true; readonly secret: Uint8Array }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A secret from its file. A sign that was changed is found: other codes would come of it. */
export function readSecret(text: string, file = "key.txt"): ReadSecret {
  const lines = text.split(/\r\n|\r|\n/).map((line) => line.trim());
  const written = lines.filter((line) => /^([0-9a-f]{4} ?)+$/i.test(line)).join("");
  const digits = written.replaceAll(" ", "").toLowerCase();
  const secret = bytesOf(digits.slice(0, secretBytes * 2));
  const isWhole = digits.length === secretBytes * 2 + 4;
  if (!isWhole || digits.slice(secretBytes * 2) !== checkOf(secret)) {
    return { ok: false, problems: [unread(file, isWhole)] };
  }
  return { ok: true, secret };
}

function inHex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function bytesOf(digits: string): Uint8Array {
  return Uint8Array.from(digits.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}

function inGroups(digits: string): string[] {
  return digits.match(/.{1,4}/g) ?? [];
}

/** Four digits by Fletcher's checksum (1982) of 16 bits: any one sign that was changed shows. */
function checkOf(bytes: Uint8Array): string {
  let [sum, sumOfSums] = [0, 0];
  for (const byte of bytes) {
    sum = (sum + byte) % 255;
    sumOfSums = (sumOfSums + sum) % 255;
  }
  return inHex(Uint8Array.of(sumOfSums, sum));
}

function unread(file: string, isWhole: boolean): Problem {
  return {
    code: "key-unread",
    severity: "stop",
    place: { file },
    message: isWhole
      ? "this key was changed since it was written: its check does not fit."
      : "this is not a file with a key of patients' codes.",
    expected: `the file as it was written, with ${(secretBytes * 2 + 4) / 4} groups of four signs`,
    remedy: "take the key from where it was kept, unchanged",
  };
}
