import type { AggregateGroup, CauseTable, Count, EyePairs, TimeTable } from "./aggregates-file.ts";
import { mostEyes } from "./count-bounds.ts";
import type { JsonPart } from "./json-part.ts";

const lastDay = 36_525;
const mostBands = 4000;
const none: Count = 0;

/** One group of eyes, its parts checked one by one; what is wrong is noted and stands as 0. */
export function readGroup(part: JsonPart): AggregateGroup {
  const parts = part.members(
    ["by", "eyes", "failed", "held", "unknown"],
    ["pairs", "times", "causes"],
  );
  const [pairs, times, causes] = ["pairs", "times", "causes"].map((name) => parts.get(name));
  return {
    by: (parts.get("by")?.items(4) ?? []).map((each) => {
      const of = each.members(["column", "value"]);
      return { column: of.get("column")?.text() ?? "", value: of.get("value")?.text() ?? "" };
    }),
    eyes: countIn(parts.get("eyes")),
    failed: countIn(parts.get("failed")),
    held: countIn(parts.get("held")),
    unknown: countIn(parts.get("unknown")),
    ...(pairs === undefined ? {} : { pairs: readPairs(pairs) }),
    ...(times === undefined ? {} : { times: readTimes(times) }),
    ...(causes === undefined ? {} : { causes: readCauses(causes) }),
  };
}

function countIn(part: JsonPart | undefined): Count {
  if (part === undefined) return none;
  if (typeof part.value !== "object" || part.value === null) return part.whole(0, mostEyes);
  const parts = part.members(["withheld"], ["most"]);
  if (parts.get("withheld")?.value !== true) part.refuse('a number, or {"withheld": true}');
  const most = parts.get("most")?.whole(1, mostEyes);
  return { withheld: true, ...(most === undefined ? {} : { most }) };
}

function readPairs(part: JsonPart): EyePairs {
  const parts = part.members(["none", "one", "both"]);
  const of = (name: string) => parts.get(name)?.whole(0, mostEyes) ?? 0;
  return { none: of("none"), one: of("one"), both: of("both") };
}

function readTimes(part: JsonPart): TimeTable {
  const parts = part.members(["bands", "reached", "deaths"]);
  const bands = (parts.get("bands")?.items(mostBands) ?? []).map((band) => {
    const of = band.members(["from", "to", "failed", "ended", "died"]);
    const whole = (name: string, most: number) => of.get(name)?.whole(0, most) ?? 0;
    return {
      ...{ from: whole("from", lastDay), to: whole("to", lastDay) },
      ...{ failed: whole("failed", mostEyes), ended: whole("ended", mostEyes) },
      died: whole("died", mostEyes),
    };
  });
  return {
    bands,
    reached: parts.get("reached")?.whole(0, mostEyes) ?? 0,
    deaths: parts.get("deaths")?.oneOf(["apart", "among ended"]) ?? "apart",
  };
}

function readCauses(part: JsonPart): CauseTable {
  const parts = part.members(["names", "bands"]);
  const names = (parts.get("names")?.items(50) ?? []).map((each) => each.text());
  const bands = (parts.get("bands")?.items(mostBands) ?? []).map((band) => {
    const of = band.members(["from", "to", "failed"]);
    return {
      from: of.get("from")?.whole(0, lastDay) ?? 0,
      to: of.get("to")?.whole(0, lastDay) ?? 0,
      failed: (of.get("failed")?.items(names.length) ?? []).map((each) => each.whole(0, mostEyes)),
    };
  });
  return { names, bands };
}
