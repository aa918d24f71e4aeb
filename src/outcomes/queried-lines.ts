import type { CaseReading } from "../cases/case-reading.ts";

/** Of the rows that are kept, the lines of those about which at least one query is open. */
export function queriedLines(reading: CaseReading): readonly number[] {
  const { problems, lines, files = [reading.file], fileOf } = reading;
  const asked = new Map<string, Set<number>>();
  for (const { severity, place } of problems) {
    if (severity !== "query" || place.line === undefined) continue;
    const file = place.file ?? reading.file.name;
    const ofFile = asked.get(file) ?? new Set();
    asked.set(file, ofFile.add(place.line));
  }
  return lines.filter((line, row) => asked.get(files[fileOf?.[row] ?? 0]!.name)?.has(line));
}
