import type { HeldCases, HeldFile } from "../cases-protocol.ts";

/** What is known of each file, with the number of its bytes, which follow in the same order. */
interface Heading {
  readonly files: readonly (Omit<HeldFile, "bytes"> & { readonly length: number })[];
  readonly corrections: string;
  readonly secretLength: number;
}

/** Bytes of the number that says how long the heading is. */
const lengthBytes = 4;

/** Cases as one run of bytes: the length of a heading, the heading as JSON, a key, the files. */
export function packCases({ files, corrections, secret }: HeldCases): Uint8Array<ArrayBuffer> {
  const heading: Heading = {
    files: files.map(({ bytes, ...about }) => ({ ...about, length: bytes.length })),
    corrections,
    secretLength: secret?.length ?? 0,
  };
  const headingBytes = new TextEncoder().encode(JSON.stringify(heading));
  const length = new Uint8Array(lengthBytes);
  new DataView(length.buffer).setUint32(0, headingBytes.length);
  const parts = [length, headingBytes, secret ?? new Uint8Array(), ...files.map((f) => f.bytes)];
  const packed = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    packed.set(part, at);
    at += part.length;
  }
  return packed;
}

/** The cases that were packed so. Throws where the bytes are of something else. */
export function unpackCases(packed: Uint8Array): HeldCases {
  const view = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
  let at = lengthBytes;
  const take = (length: number) => {
    if (at + length > packed.length) throw new RangeError("kept cases end too early");
    at += length;
    return packed.slice(at - length, at);
  };
  const text = new TextDecoder().decode(take(view.getUint32(0)));
  const { files, corrections, secretLength } = JSON.parse(text) as Heading;
  const secret = take(secretLength);
  return {
    files: files.map(({ length, ...about }) => ({ ...about, bytes: take(length) })),
    corrections,
    ...(secretLength > 0 && { secret }),
  };
}
