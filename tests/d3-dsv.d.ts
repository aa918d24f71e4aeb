/** What tests and benchmarks use of a library that ships no types. */
declare module "d3-dsv" {
  /** Rows of values as text, by RFC 4180. */
  export function csvParseRows(text: string): string[][];
  /** Rows of values as text by RFC 4180, quoted where they must be. */
  export function csvFormatRows(rows: readonly (readonly string[])[]): string;
}
