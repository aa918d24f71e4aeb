import { describeDictionary, type FieldDescription } from "../cases/describe-dictionary.ts";
import { nearestName } from "../problem/nearest-name.ts";
import type { Exit, Surroundings } from "./exit.ts";

/** Says what a file of cases can hold: every field in a line, or one of them in full. */
export function listFields(name: string | undefined, speaker: Surroundings): Exit {
  const fields = describeDictionary();
  if (name === undefined) {
    speaker.say(inGroups(fields));
    return 0;
  }
  const field = fields.find((each) => each.name === name.replaceAll(" ", "_"));
  if (field !== undefined) {
    speaker.say(inFull(field));
    return 0;
  }
  const near = nearestName(
    name,
    fields.map((each) => each.name),
  );
  speaker.warn(`There is no field ${name}${near === undefined ? "" : `; did you mean ${near}?`}\n`);
  return 2;
}

function inGroups(fields: readonly FieldDescription[]): string {
  const width = Math.max(...fields.map(({ name }) => name.length));
  const groups = [...new Set(fields.map(({ group }) => group))];
  return groups
    .map((group) => {
      const lines = fields
        .filter((field) => field.group === group)
        .map(({ name, holds }) => `  ${name.padEnd(width)}  ${holds}\n`);
      return `${group}\n${lines.join("")}`;
    })
    .join("\n");
}

function inFull({ name, holds, meaning, headings, spellings }: FieldDescription): string {
  const known = headings.length === 0 ? "" : `known headings: ${headings.join(", ")}\n`;
  const codes = spellings
    .filter(([, ways]) => ways.length > 0)
    .map(([code, ways]) => `  ${code}: ${ways.join(", ")}\n`);
  const written = codes.length === 0 ? "" : `also written\n${codes.join("")}`;
  return `${name}: ${meaning}\n${holds}\n${known}${written}`;
}
