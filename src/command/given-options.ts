import { parseArgs } from "node:util";
import { nearestName } from "../problem/nearest-name.ts";
import type { Values } from "./given-values.ts";

const options = {
  into: { type: "string" },
  dated: { type: "string" },
  notebook: { type: "string" },
  earlier: { type: "string" },
  period: { type: "string", multiple: true },
  corrections: { type: "string" },
  later: { type: "string", multiple: true },
  "follow-up": { type: "string", multiple: true },
  share: { type: "boolean" },
  threshold: { type: "string" },
  pdf: { type: "boolean" },
  paper: { type: "string" },
  slides: { type: "boolean" },
  zip: { type: "boolean" },
  aggregates: { type: "boolean" },
  eyes: { type: "string" },
  unit: { type: "string" },
  by: { type: "string", multiple: true },
  schema: { type: "boolean" },
  watch: { type: "boolean" },
  sheet: { type: "string" },
  json: { type: "boolean" },
  quiet: { type: "boolean", short: "q" },
  help: { type: "boolean", short: "h" },
  version: { type: "boolean" },
} as const;

type Option = keyof typeof options;

const laid: readonly Option[] = ["dated", "sheet", "corrections", "later", "follow-up"];
const printed: readonly Option[] = ["pdf", "paper"];
const beside: readonly Option[] = ["slides", "zip", "watch", "share", "threshold", "aggregates"];

/** What each thing that can be done takes, beside --help and --version. */
const optionsOf: ReadonlyMap<string, readonly Option[]> = new Map([
  ["report", ["into", ...laid, ...printed, ...beside, "quiet"]],
  ["aggregates", ["into", ...laid, "eyes", "unit", "by", "threshold", "schema", "quiet"]],
  ["compare", ["into", "dated", "sheet", ...printed, "earlier", "period", "quiet"]],
  ["check", ["notebook", "sheet", "json", "quiet"]],
  ["words", []],
  ["fields", []],
  ["help", []],
]);

/** What can be done, by its names. */
export const acts: readonly string[] = [...optionsOf.keys()];

/** What was given, read by its dashes; or why it cannot be, with the option that was meant. */
export function givenOptions(
  given: readonly string[],
): { readonly values: Values; readonly positionals: readonly string[] } | { readonly why: string } {
  const unknown = given.find((each) => each.startsWith("--") && !isKnown(each));
  const isCut = given.includes("--");
  if (unknown !== undefined && !isCut) return { why: unknownOption(nameOf(unknown)) };
  try {
    const parsed = parseArgs({ args: [...given], allowPositionals: true, options });
    const [act = ""] = parsed.positionals;
    const why = misplaced(act, Object.keys(parsed.values) as Option[]);
    return why === undefined ? parsed : { why };
  } catch (refusal) {
    return { why: refusalOf(refusal) };
  }
}

/** "Option '--into <value>' argument missing" and its like, in words for people. */
function refusalOf(refusal: unknown): string {
  const message = refusal instanceof Error ? refusal.message : String(refusal);
  const [, option] = /'(?:-\w, )?(--[\w-]+) <value>'/.exec(message) ?? [];
  return option === undefined ? message : `${option} needs a value after it`;
}

function isKnown(written: string): boolean {
  return Object.hasOwn(options, nameOf(written)) || written === "--";
}

/** "--into=out" as "into". */
function nameOf(written: string): string {
  return written.slice(2).replace(/=.*$/s, "");
}

function unknownOption(name: string): string {
  const near = nearestName(name, Object.keys(options));
  const meant = near === undefined ? "" : `; did you mean --${near}?`;
  return `--${name} is no option${meant}`;
}

/** An option that would be overlooked is refused: its writer waits for what it does. */
function misplaced(act: string, given: readonly Option[]): string | undefined {
  const taken = optionsOf.get(act);
  const always: readonly Option[] = ["help", "version"];
  const odd = given.find((each) => taken?.includes(each) === false && !always.includes(each));
  if (odd === undefined) return undefined;
  const places = acts.filter((each) => optionsOf.get(each)?.includes(odd));
  return `--${odd} does not go with ${act}; it belongs to ${places.join(", ")}`;
}
