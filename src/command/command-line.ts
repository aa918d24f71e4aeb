import { nearestName } from "../problem/nearest-name.ts";
import { compareAsked } from "./compare-asked.ts";
import type { CompareAsked } from "./compare-files.ts";
import type { LaidAsked } from "./files-laid.ts";
import { acts, givenOptions } from "./given-options.ts";
import { folderAndDay, paperAsked, type Values } from "./given-values.ts";
import type { PoolingWanted } from "./pool-departments.ts";
import type { Paper } from "./print-pdf.ts";
import type { AggregatesWanted } from "./write-aggregates.ts";
import type { FilesBeside, SharingAsked } from "./write-report.ts";

/** What the reader asked for on the command line. */
export type Asked =
  | { readonly act: "help"; readonly of?: string }
  | { readonly act: "version" }
  | { readonly act: "words"; readonly word?: string }
  | { readonly act: "fields"; readonly field?: string }
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
      /** A report that may leave the department. */
      readonly share?: SharingAsked;
      readonly paper?: Paper;
      readonly beside: FilesBeside;
      readonly laid: LaidAsked;
      readonly watch: boolean;
      readonly quiet: boolean;
    }
  | { readonly act: "aggregates schema" }
  | ({ readonly act: "aggregates" } & AggregatesWanted)
  | ({ readonly act: "pooled report" } & PoolingWanted)
  | ({ readonly act: "compare" } & CompareAsked);

export type CommandLine = Asked | { readonly act: "refused"; readonly why: string };

export function readCommandLine(given: readonly string[]): CommandLine {
  const parsed = givenOptions(given);
  if ("why" in parsed) return { act: "refused", why: parsed.why };
  const { values, positionals } = parsed;
  if (values.version === true) return { act: "version" };
  const [act, ...files] = positionals;
  if (act === undefined || act === "help") return helpAsked(files[0]);
  if (values.help === true) return helpAsked(act);
  if (act === "words")
    return { act: "words", ...(files[0] === undefined ? {} : { word: files[0] }) };
  if (act === "fields")
    return { act: "fields", ...(files[0] === undefined ? {} : { field: files[0] }) };
  if (act === "check") return checkAsked(files, values);
  if (act === "compare") {
    const asked = compareAsked(files, values);
    return "why" in asked ? { act: "refused", ...asked } : { act: "compare", ...asked };
  }
  if (act === "aggregates") return aggregatesAsked(files, values);
  if (act !== "report") return { act: "refused", why: unknownAct(act) };
  if (values.aggregates === true) return pooledAsked(files, values);
  return reportAsked(files, values);
}

function helpAsked(of: string | undefined): CommandLine {
  if (of === undefined || of === "help") return { act: "help" };
  return acts.includes(of) ? { act: "help", of } : { act: "refused", why: unknownAct(of) };
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
    const further = "further cases go with --later or --follow-up, another file with compare";
    const why = `report takes two files; ${rest.join(", ")} is too many (${further})`;
    return { act: "refused", why };
  }
  if (isSwapped(notebook, cases)) {
    const why = `the notebook comes first, then the cases: report ${cases} ${notebook}`;
    return { act: "refused", why };
  }
  const folder = folderAndDay("report", values);
  if ("why" in folder) return { act: "refused", why: folder.why };
  const shared = sharingAsked(values);
  if ("why" in shared) return { act: "refused", why: shared.why };
  const printed = paperAsked(values);
  if ("why" in printed) return { act: "refused", why: printed.why };
  return {
    act: "report",
    notebook,
    cases,
    ...folder,
    quiet: values.quiet === true,
    ...(values.sheet === undefined ? {} : { sheet: values.sheet }),
    ...shared,
    ...printed,
    beside: { slides: values.slides === true, zip: values.zip === true },
    laid: laidAsked(values),
    watch: values.watch === true,
  };
}

function isSwapped(notebook: string, cases: string): boolean {
  return /\.(csv|tsv|txt|xlsx)$/i.test(notebook) && /\.md$/i.test(cases);
}

/** A file to write rather than a folder, and what of the eyes to hand over. */
function aggregatesAsked(files: readonly string[], values: Values): CommandLine {
  if (values.schema === true) return { act: "aggregates schema" };
  const [notebook, cases, ...rest] = files;
  if (notebook === undefined || cases === undefined || rest.length > 0) {
    const why = "aggregates needs a notebook and a file of cases, in that order, and no more";
    return { act: "refused", why };
  }
  const folder = folderAndDay("aggregates", values, "a file to write");
  if ("why" in folder) return { act: "refused", why: folder.why };
  const shared = sharingAsked({ ...values, share: true });
  if ("why" in shared) return { act: "refused", why: shared.why };
  const { sheet, eyes, unit, by = [] } = values;
  return {
    ...{ act: "aggregates", notebook, cases, by },
    ...folder,
    ...(sheet === undefined ? {} : { sheet }),
    ...(eyes === undefined ? {} : { eyes }),
    ...(unit === undefined ? {} : { unit }),
    laid: laidAsked(values),
    ...shared.share,
    quiet: values.quiet === true,
  };
}

function pooledAsked(files: readonly string[], values: Values): CommandLine {
  const [notebook, ...aggregates] = files;
  if (notebook === undefined || aggregates.length === 0) {
    const why = "report --aggregates needs a notebook and a file of aggregates of each department";
    return { act: "refused", why };
  }
  if (values.share === true || values.watch === true) {
    const why = "--aggregates does not go with --share or --watch";
    return { act: "refused", why };
  }
  const folder = folderAndDay("report", values);
  if ("why" in folder) return { act: "refused", why: folder.why };
  const printed = paperAsked(values);
  if ("why" in printed) return { act: "refused", why: printed.why };
  const beside = { slides: values.slides === true, zip: values.zip === true };
  const quiet = values.quiet === true;
  return { act: "pooled report", notebook, aggregates, ...folder, ...printed, beside, quiet };
}

/** Later exports come before what follows up their operations. */
function laidAsked(values: Values): LaidAsked {
  const { corrections, later = [], "follow-up": followUps = [] } = values;
  return {
    ...(corrections === undefined ? {} : { corrections }),
    further: [
      ...later.map((path) => ({ path, as: "operations" as const })),
      ...followUps.map((path) => ({ path, as: "follow-up" as const })),
    ],
  };
}

function sharingAsked({
  share,
  threshold,
}: Values): { readonly share?: SharingAsked } | { readonly why: string } {
  if (share !== true) {
    return threshold === undefined ? {} : { why: "--threshold belongs to --share" };
  }
  if (threshold === undefined) return { share: {} };
  if (!/^\d{1,4}$/.test(threshold) || Number(threshold) < 2) {
    return { why: `--threshold ${threshold} is not a whole number of 2 or more, such as 5` };
  }
  return { share: { threshold: Number(threshold) } };
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
