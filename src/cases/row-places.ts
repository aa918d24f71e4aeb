/** Where rows stand in the files they come from. */
export interface RowPlaces {
  /** Names of the files. */
  readonly files: readonly string[];
  /** By row, its first line, counted from 1. */
  readonly lines: readonly number[];
  /** By row, the position of its file in `files`; absent where all are of the first. */
  readonly fileOf?: readonly number[];
}

export interface RowPlace {
  readonly file: string;
  readonly line: number;
}

/** Where a row stands. */
export function placeOf({ files, lines, fileOf }: RowPlaces, row: number): RowPlace {
  return { file: files[fileOf?.[row] ?? 0]!, line: lines[row]! };
}

/** The places of some of the rows, in the order given. */
export function placesOf(places: RowPlaces, rows: readonly number[]): RowPlaces {
  const { files, lines, fileOf } = places;
  return {
    files,
    lines: rows.map((row) => lines[row]!),
    ...(fileOf && { fileOf: rows.map((row) => fileOf[row]!) }),
  };
}
