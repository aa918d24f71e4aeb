import { type Paper, papers } from "./print-pdf.ts";

/** Options as they were given. */
export interface Values {
  readonly into?: string | undefined;
  readonly dated?: string | undefined;
  readonly notebook?: string | undefined;
  readonly earlier?: string | undefined;
  readonly period?: readonly string[] | undefined;
  readonly sheet?: string | undefined;
  readonly corrections?: string | undefined;
  readonly later?: readonly string[] | undefined;
  readonly "follow-up"?: readonly string[] | undefined;
  readonly share?: boolean | undefined;
  readonly threshold?: string | undefined;
  readonly pdf?: boolean | undefined;
  readonly paper?: string | undefined;
  readonly slides?: boolean | undefined;
  readonly zip?: boolean | undefined;
  readonly aggregates?: boolean | undefined;
  readonly eyes?: string | undefined;
  readonly unit?: string | undefined;
  readonly by?: readonly string[] | undefined;
  readonly schema?: boolean | undefined;
  readonly watch?: boolean | undefined;
  readonly json?: boolean | undefined;
  readonly quiet?: boolean | undefined;
  readonly help?: boolean | undefined;
  readonly version?: boolean | undefined;
}

export function folderAndDay(
  act: string,
  { into, dated }: Values,
  where = "a folder to write to",
): { readonly into: string; readonly dated?: string } | { readonly why: string } {
  if (into === undefined)
    return {
      why: `${act} needs ${where}: --into ${where.startsWith("a file") ? "FILE" : "FOLDER"}`,
    };
  if (dated === undefined) return { into };
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(dated);
  return isDay ? { into, dated } : { why: `--dated ${dated} is not a day such as 2026-03-31` };
}

export function paperAsked({
  pdf,
  paper = "A4",
}: Values): { readonly paper?: Paper } | { readonly why: string } {
  const size = papers.find((each) => each.toLowerCase() === paper.toLowerCase());
  if (size === undefined) return { why: `--paper ${paper} is neither A4 nor Letter` };
  return pdf === true ? { paper: size } : {};
}
