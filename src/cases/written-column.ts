/**
 * A column of a file as text, each different value held once: what is asked of values is asked
 * once of each different one, however many rows hold it.
 */
export class WrittenColumn {
  /** Every value that the column holds, once, in the order of first appearance. */
  readonly different: readonly string[];
  /** By row, the place of its value in `different`. */
  readonly places: Uint32Array;

  private constructor(different: readonly string[], places: Uint32Array) {
    this.different = different;
    this.places = places;
  }

  /** From the values of all rows. */
  static of(values: readonly string[]): WrittenColumn {
    const known = new Map<string, number>();
    const places = new Uint32Array(values.length);
    values.forEach((value, row) => {
      const place = known.get(value) ?? known.size;
      if (place === known.size) known.set(value, place);
      places[row] = place;
    });
    return new WrittenColumn([...known.keys()], places);
  }

  /** From places in a list that holds more values than these; the places are changed. */
  static among(values: readonly string[], { places, room }: PlacesAmong): WrittenColumn {
    const used: number[] = [];
    for (let row = 0; row < places.length; row++) {
      const value = places[row]!;
      if (room[value] === 0) room[value] = used.push(value);
      places[row] = room[value]! - 1;
    }
    for (const value of used) room[value] = 0;
    return new WrittenColumn(
      used.map((value) => values[value]!),
      places,
    );
  }

  /** One column after the other. */
  static joined(columns: readonly WrittenColumn[]): WrittenColumn {
    return WrittenColumn.of(columns.flatMap((column) => column.map((value) => value)));
  }

  /** Rows. */
  get length(): number {
    return this.places.length;
  }

  at(row: number): string | undefined {
    return this.different[this.places[row]!];
  }

  /** By row, what is made of its value. */
  map<T>(make: (value: string) => T): T[] {
    return this.spread(this.different.map((value) => make(value)));
  }

  /** By row, what stands for its value in a list as long as `different`. */
  spread<T>(made: readonly T[]): T[] {
    const values = new Array<T>(this.length);
    for (let row = 0; row < values.length; row++) values[row] = made[this.places[row]!]!;
    return values;
  }

  /** How many rows hold each value of `different`. */
  counts(): Uint32Array {
    const counts = new Uint32Array(this.different.length);
    for (const place of this.places) counts[place]!++;
    return counts;
  }

  /** In how many rows the value is so. */
  count(isSo: (value: string) => boolean): number {
    const so = this.different.map((value) => isSo(value));
    if (!so.includes(true)) return 0;
    return this.counts().reduce((sum, rows, place) => sum + (so[place] ? rows : 0), 0);
  }

  /** The rows in which the value is so, in order. */
  rowsWhere(isSo: (value: string) => boolean): number[] {
    const so = this.different.map((value) => isSo(value));
    if (!so.includes(true)) return [];
    const rows: number[] = [];
    for (let row = 0; row < this.length; row++) if (so[this.places[row]!]) rows.push(row);
    return rows;
  }

  /** The column with other values in some rows. */
  with(changes: ReadonlyMap<number, string>): WrittenColumn {
    if (changes.size === 0) return this;
    const values = this.map((value) => value);
    for (const [row, value] of changes) values[row] = value;
    return WrittenColumn.of(values);
  }

  /** Some rows of the column, in the order given. */
  rows(rows: readonly number[]): WrittenColumn {
    const places = Uint32Array.from(rows, (row) => this.places[row]!);
    return WrittenColumn.among(this.different, { places, room: roomFor(this.different.length) });
  }
}

/** Where values stand in a list, and a number for each value of the list, all 0 before and after. */
export interface PlacesAmong {
  readonly places: Uint32Array;
  readonly room: Uint32Array;
}

export function roomFor(values: number): Uint32Array {
  return new Uint32Array(values);
}
