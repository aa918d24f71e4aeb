import { dayText } from "../../formula/calendar.ts";
import type { Thing, Value } from "../../formula/value.ts";
import { type EyeRecord, eyeCount } from "../../outcomes/eye-record.ts";
import { plainNumber } from "../../questions/answering/wording.ts";
import { tableInWords } from "../../questions/tables/table-preview.ts";
import type { TableValue } from "../../questions/tables/table-value.ts";

/** What a cell is worth, in words, where it is neither an answer nor a setting. */
export function worthInWords(value: Value): string {
  switch (value.kind) {
    case "missing":
      return "missing";
    case "number":
      return plainNumber(value.number);
    case "truth":
      return value.truth ? "yes" : "no";
    case "text":
      return value.text;
    case "day":
      return dayText(value.day);
    case "duration":
      return `${plainNumber(value.amount)} ${value.unit}${value.amount === 1 ? "" : "s"}`;
    case "list":
      return value.items.map(worthInWords).join(", ");
    case "thing":
      return thingInWords(value);
  }
}

function thingInWords(thing: Thing): string {
  if (thing.of === "table") return tableInWords(thing.content as TableValue);
  if (thing.of === "eyes") return eyesInWords(thing.content as EyeRecord);
  const parts = [...thing.parts].flatMap(([name, part]) =>
    "kind" in part ? [`${name.replaceAll("_", " ")} ${worthInWords(part)}`] : [],
  );
  return parts.length === 0 ? thing.of : `${thing.of}: ${parts.join(", ")}`;
}

function eyesInWords(record: EyeRecord): string {
  const reasons = new Map<string, number>();
  for (const { reason } of record.leftOut) reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
  const eyes = `${eyeCount(record)} eyes followed`;
  if (reasons.size === 0) return `${eyes}, none left out.`;
  const left = [...reasons].map(([reason, count]) => `${count} (${reason})`);
  return `${eyes}. Left out: ${left.join(", ")}.`;
}
