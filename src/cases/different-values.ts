/**
 * The different values of a text, each once: an open-addressed table of hashes over pieces of the
 * text, so that a piece which was met before costs no new string.
 */
export class DifferentValues {
  /** In the order of first appearance; the first is empty. */
  readonly values: string[] = [""];
  #hashes = new Uint32Array(1024);
  /** Places in `values`, by hash; 0 where free, since the empty value is never looked for. */
  #slots = new Uint32Array(2048);

  /** The place of a piece of a text, without space around it. */
  placeOf(text: string, start: number, end: number): number {
    if (start === end) return 0;
    if (isInk(text.charCodeAt(start)) && isInk(text.charCodeAt(end - 1))) {
      return this.#place(text, start, end);
    }
    const trimmed = text.slice(start, end).trim();
    return trimmed === "" ? 0 : this.#place(trimmed, 0, trimmed.length);
  }

  #place(text: string, start: number, end: number): number {
    let hash = end - start;
    for (let i = start; i < end; i++) hash = (Math.imul(hash, 31) + text.charCodeAt(i)) | 0;
    hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d) >>> 0;
    const last = this.#slots.length - 1;
    let slot = hash & last;
    for (let place = this.#slots[slot]!; place !== 0; place = this.#slots[slot]!) {
      if (this.#hashes[place] === hash && this.#isPiece(place, text, start, end)) return place;
      slot = (slot + 1) & last;
    }
    return this.#add(text.slice(start, end), hash, slot);
  }

  #isPiece(place: number, text: string, start: number, end: number): boolean {
    const value = this.values[place]!;
    return value.length === end - start && text.startsWith(value, start);
  }

  #add(value: string, hash: number, slot: number): number {
    const place = this.values.push(value) - 1;
    if (place === this.#hashes.length) this.#hashes = widened(this.#hashes);
    this.#hashes[place] = hash;
    this.#slots[slot] = place;
    if (place * 2 > this.#slots.length) this.#spread();
    return place;
  }

  /** Twice the slots: at most half of them are taken. */
  #spread(): void {
    const slots = new Uint32Array(this.#slots.length * 2);
    const last = slots.length - 1;
    for (let place = 1; place < this.values.length; place++) {
      let slot = this.#hashes[place]! & last;
      while (slots[slot] !== 0) slot = (slot + 1) & last;
      slots[slot] = place;
    }
    this.#slots = slots;
  }
}

/** The same numbers with room for as many more. */
export function widened(numbers: Uint32Array<ArrayBuffer>): Uint32Array<ArrayBuffer> {
  const wide = new Uint32Array(numbers.length * 2);
  wide.set(numbers);
  return wide;
}

/** A sign that is surely no space. */
function isInk(code: number): boolean {
  return code > 32 && code < 127;
}
