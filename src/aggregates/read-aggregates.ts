import type { Problem } from "../problem/problem.ts";
import { type AggregateGroup, type AggregatesFile, aggregatesVersion } from "./aggregates-file.ts";
import { groupFaults } from "./group-faults.ts";
import { JsonPart } from "./json-part.ts";
import { readGroup } from "./read-group.ts";

/** Longer than any file this program writes. */
const mostCharacters = 5_000_000;
const mostGroups = 500;
const mostDays = 36_525;

/**
 * The aggregates of one department from the text of its file, or everything that is wrong with it.
 * Nothing in it is trusted: sizes, counts, days and names are checked, and counts against each other.
 */
export function readAggregates(
  name: string,
  text: string,
):
  | { readonly aggregates: AggregatesFile; readonly problems: readonly [] }
  | { readonly problems: readonly Problem[] } {
  const parsed = parsedJson(name, text);
  if ("problem" in parsed) return { problems: [parsed.problem] };
  const problems: Problem[] = [];
  const root = new JsonPart(parsed.value, { place: "", file: name, problems });
  if (!isThisVersion(parsed.value)) return { problems: [otherVersion(name, parsed.value)] };
  const aggregates = readFile(root);
  if (problems.length === 0) {
    for (const { part, expected, message } of groupFaults(aggregates)) {
      new JsonPart(part, { place: "groups", file: name, problems }).refuse(expected, message);
    }
  }
  return problems.length === 0 ? { aggregates, problems: [] } : { problems };
}

function parsedJson(
  file: string,
  text: string,
): { readonly value: unknown } | { readonly problem: Problem } {
  const refusal = (message: string): { readonly problem: Problem } => ({
    problem: {
      code: "aggregates-unreadable",
      severity: "stop",
      place: { file },
      message,
      expected: "a file that `holdfast aggregates` wrote",
      remedy: "ask the department for the file again",
    },
  });
  if (text.length > mostCharacters) return refusal("the file is too long for a file of aggregates");
  try {
    return { value: JSON.parse(text.replace(/^\uFEFF/, "")) };
  } catch {
    return refusal("the file is not JSON");
  }
}

function isThisVersion(value: unknown): boolean {
  return versionIn(value) === aggregatesVersion;
}

function versionIn(value: unknown): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, versionKey))
    return undefined;
  return (value as Record<string, unknown>)[versionKey];
}

const versionKey = "holdfast_aggregates";

function otherVersion(file: string, value: unknown): Problem {
  const version = versionIn(value);
  const isNewer = typeof version === "number" && version > aggregatesVersion;
  return {
    code: isNewer ? "aggregates-newer" : "aggregates-unreadable",
    severity: "stop",
    place: { file, field: versionKey },
    message: isNewer
      ? "the file was written by a newer version"
      : "this is not a file of aggregates",
    ...(version === undefined ? {} : { found: String(version).slice(0, 40) }),
    expected: `"${versionKey}": ${aggregatesVersion}`,
    remedy: isNewer
      ? "use the newer version, or ask the department to write it with this one"
      : "give a file that `holdfast aggregates` wrote",
  };
}

function readFile(root: JsonPart): AggregatesFile {
  const parts = root.members(
    [versionKey, "made_by", "unit", "definition", "smallest_count", "groups"],
    ["period"],
  );
  const period = parts.get("period")?.text();
  return {
    holdfast_aggregates: aggregatesVersion,
    made_by: parts.get("made_by")?.text() ?? "",
    unit: parts.get("unit")?.text() ?? "",
    ...(period === undefined ? {} : { period }),
    definition: readDefinition(parts.get("definition")),
    smallest_count: parts.get("smallest_count")?.whole(2, 9999) ?? 2,
    groups: (parts.get("groups")?.items(mostGroups) ?? []).map(
      (part): AggregateGroup => readGroup(part),
    ),
  };
}

function readDefinition(part: JsonPart | undefined): AggregatesFile["definition"] {
  const parts = part?.members(["failure", "oil", "undecided", "window", "days", "eyes"]);
  return {
    failure: readFailure(parts?.get("failure")),
    oil:
      parts
        ?.get("oil")
        ?.oneOf([
          "followed from removal",
          "censored at insertion",
          "counted as attached",
          "counted as failed",
        ]) ?? "",
    undecided: parts?.get("undecided")?.oneOf(["bounds", "censored", "failed", "attached"]) ?? "",
    window: parts?.get("window")?.text() ?? "",
    days: parts?.get("days")?.whole(1, mostDays) ?? 1,
    eyes: parts?.get("eyes")?.oneOf(["all", "chosen"]) ?? "all",
  };
}

/** Definitions that give every failure its day: without one there is no curve and no window. */
const dated = ["redetachment", "reoperation"] as const;
const undated: readonly unknown[] = ["not attached without oil", "detached at last visit"];

function readFailure(part: JsonPart | undefined): string {
  if (part === undefined) return "";
  if (!undated.includes(part.value)) return part.oneOf(dated);
  part.refuse(
    `one of ${dated.join(", ")}`,
    "a state that is read at the last visit has no day, so it cannot be pooled over a window",
  );
  return "";
}
