import { parseArgs } from "node:util";
import { nearestName } from "../problem/nearest-name.ts";

/** What the reader asked for on the command line. */
export type Asked =
  | { readonly act: "help" }
  | { readonly act: "version" }
  | { readonly act: "words"; readonly word?: string }
  | {
      readonly act: "check";
      readonly cases: string;
      readonly notebook?: string;
      readonly sheet?: string;
      readonly json: boolean;
      readonly quiet: boolean;
    }
  | {
      readonly act: "report";
      readonly notebook: string;
      readonly cases: string;
      readonly into: string;
      readonly dated?: string;
      readonly sheet?: string;
      /** For a report that may leave the department: the smallest count that is shown. */
      readonly threshold?: number;
      readonly quiet: boolean;
    };

export type CommandLine = Asked | { readonly act: "refused"; readonly why: string };

const acts = ["report", "check", "words", "help"];

export function readCommandLine(given: readonly string[]): CommandLine {
  const parsed = parsedArguments(given);
  if ("why" in parsed) return { act: "refused", why: parsed.why };
  const { values, positionals } = parsed;
  if (values.version === true) return { act: "version" };
  const [act, ...files] = positionals;
  if (values.help === true || act === undefined || act === "help") return { act: "help" };
  if (act === "words")
    return { act: "words", ...(files[0] === undefined ? {} : { word: files[0] }) };
  if (act === "check") return checkAsked(files, values);
  if (act !== "report") return { act: "refused", why: unknownAct(act) };
  return reportAsked(files, values);
}

interface Values {
  readonly into?: string | undefined;
  readonly dated?: string | undefined;
  readonly notebook?: string | undefined;
  readonly sheet?: string | undefined;
  readonly share?: boolean | undefined;
  readonly threshold?: string | undefined;
  readonly json?: boolean | undefined;
  readonly quiet?: boolean | undefined;
  readonly help?: boolean | undefined;
  readonly version?: boolean | undefined;
}

function parsedArguments(
  given: readonly string[],
): { readonly values: Values; readonly positionals: readonly string[] } | { readonly why: string } {
  try {
    return parseArgs({
      args: [...given],
      allowPositionals: true,
      options: {
        into: { type: "string" },
        dated: { type: "string" },
        notebook: { type: "string" },
        share: { type: "boolean" },
        threshold: { type: "string" },
        sheet: { type: "string" },
        json: { type: "boolean" },
        quiet: { type: "boolean", short: "q" },
        help: { type: "boolean", short: "h" },
        version: { type: "boolean" },
      },
    });
  } catch (refusal) {
    return { why: refusal instanceof Error ? refusal.message : String(refusal) };
  }
}

function unknownAct(act: string): string {
  const near = nearestName(act, acts);
  const meant = near === undefined ? "" : `; did you mean ${near}?`;
  return `"${act}" is nothing that can be done here${meant}`;
}

function reportAsked(files: readonly string[], values: Values): CommandLine {
  const [notebook, cases, ...rest] = files;
  if (notebook === undefined || cases === undefined) {
    return { act: "refused", why: "report needs a notebook and a file of cases, in that order" };
  }
  if (rest.length > 0) {
    return { act: "refused", why: `report takes two files; ${rest.join(", ")} is too many` };
  }
  if (values.into === undefined) {
    return { act: "refused", why: "report needs a folder to write to: --into FOLDER" };
  }
  if (values.dated !== undefined && !/^\d{4}-\d{2}-\d{2}$/.test(values.dated)) {
    return { act: "refused", why: `--dated ${values.dated} is not a day such as 2026-03-31` };
  }
  const shared = sharingAsked(values);
  if ("why" in shared) return { act: "refused", why: shared.why };
  return {
    act: "report",
    notebook,
    cases,
    into: values.into,
    quiet: values.quiet === true,
    ...(values.dated === undefined ? {} : { dated: values.dated }),
    ...(values.sheet === undefined ? {} : { sheet: values.sheet }),
    ...shared,
  };
}

/** Smallest count shown where `--threshold` does not say another. */
const usualThreshold = 5;

function sharingAsked({
  share,
  threshold,
}: Values): { readonly threshold?: number } | { readonly why: string } {
  if (share !== true) {
    return threshold === undefined ? {} : { why: "--threshold belongs to --share" };
  }
  if (threshold === undefined) return { threshold: usualThreshold };
  if (!/^\d{1,4}$/.test(threshold) || Number(threshold) < 2) {
    return { why: `--threshold ${threshold} is not a whole number of 2 or more, such as 5` };
  }
  return { threshold: Number(threshold) };
}

function checkAsked(files: readonly string[], values: Values): CommandLine {
  const [cases, ...rest] = files;
  if (cases === undefined) return { act: "refused", why: "check needs a file of cases" };
  if (rest.length > 0) {
    return { act: "refused", why: `check takes one file; ${rest.join(", ")} is too many` };
  }
  return {
    act: "check",
    cases,
    json: values.json === true,
    quiet: values.quiet === true,
    ...(values.notebook === undefined ? {} : { notebook: values.notebook }),
    ...(values.sheet === undefined ? {} : { sheet: values.sheet }),
  };
}
