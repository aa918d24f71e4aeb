/** The one function that the benchmark compares with; the library ships no types. */
declare module "d3-dsv" {
  /** Rows of values as text, by RFC 4180. */
  export function csvParseRows(text: string): string[][];
}
