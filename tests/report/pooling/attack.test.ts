import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { generateDemo } from "../../../data-demo/generate.ts";
import type { AggregateGroup, AggregatesFile } from "../../../src/aggregates/aggregates-file.ts";
import { smallerGroups } from "../../../src/aggregates/aggregates-file.ts";
import { countBounds, keyOfGroup } from "../../../src/aggregates/count-bounds.ts";
import { columnNamed } from "../../../src/cases/table.ts";
import type { EyeRecord } from "../../../src/outcomes/eye-record.ts";
import { outcomeAt } from "../../../src/outcomes/outcome-at.ts";
import { aggregatesOfSession } from "../../../src/report/pooling/aggregates-of-session.ts";
import { reportOfSession } from "../../../src/report/report-of-session.ts";
import { shownBySharedReport } from "../../../src/report/sharing/shared-report.ts";
import { recovered, type Told } from "../disclosure/attack.ts";
import { patientsBy } from "../disclosure/patients-by.ts";
import { eyesIn, sessionOf } from "./session-of.ts";

const threshold = 5;
const names = ["eyes", "failed", "held", "unknown"] as const;

/** The eyes of a group of the file, found again from the record alone. */
function eyesOf(record: EyeRecord, group: AggregateGroup, file: AggregatesFile): number[] {
  const all = Array.from(record.time, (_, eye) => eye);
  const text = (column: string, eye: number) => {
    const value = columnNamed(record.table, column)?.values[eye] ?? null;
    if (value === null) return "not recorded";
    return typeof value === "boolean" ? (value ? "yes" : "no") : String(value);
  };
  const isIn = (eye: number, by: AggregateGroup["by"]) =>
    by.every(({ column, value }) => text(column, eye) === value);
  if (!group.by.some(({ value }) => value === smallerGroups)) {
    return all.filter((eye) => isIn(eye, group.by));
  }
  const columns = JSON.stringify(group.by.map(({ column }) => column));
  const others = file.groups.filter(
    (each) => each !== group && JSON.stringify(each.by.map(({ column }) => column)) === columns,
  );
  return all.filter((eye) => !others.some(({ by }) => isIn(eye, by)));
}

/** All that the file tells, and all that it must not: counts by outcome, bands, days, causes. */
function toldOf(record: EyeRecord, file: AggregatesFile): Told[] {
  const { days } = file.definition;
  return file.groups.flatMap((group): Told[] => {
    const eyes = eyesOf(record, group, file);
    const key = `file ${keyOfGroup(group)}`;
    const set = (name: string, of: readonly number[], isShown: boolean): Told => ({
      ...{ key: `${key} ${name}`, isShown },
      rows: new Set(of.map((eye) => record.lines[eye]?.[0] ?? 0)),
    });
    const outcome = (eye: number) => outcomeAt(record, eye, { time: days });
    const having = (what: string) => eyes.filter((eye) => outcome(eye) === what);
    const sets = {
      ...{ eyes, failed: having("failed") },
      ...{ held: having("not failed"), unknown: having("not known") },
    };
    const counts = names.map((name) => set(name, sets[name], typeof group[name] === "number"));
    const ending = (eye: number) => {
      if (record.event[eye] === 1) return "failed";
      if ((record.time[eye] ?? 0) >= days) return "reached";
      return record.state[eye] === "died" && group.times?.deaths !== "among ended"
        ? "died"
        : "ended";
    };
    const between = (from: number, to: number, how: string) =>
      eyes.filter((eye) => {
        const time = record.time[eye] ?? 0;
        return time >= from && time <= to && ending(eye) === how;
      });
    const bands = (group.times?.bands ?? []).flatMap(({ from, to, ...band }) =>
      (["failed", "ended", "died"] as const).map((how) => {
        const of = between(from, to, how);
        expect(of.length).toBe(band[how]);
        return set(`${how} ${from}-${to}`, of, true);
      }),
    );
    const months = [0, 30, 61, 91, 122, 152, 183, 274, 365].flatMap((to, at, all) =>
      ["failed", "ended", "died"].map((how) =>
        set(`month ${how} ${to}`, between((all[at - 1] ?? -1) + 1, to, how), false),
      ),
    );
    return [...counts, ...bands, ...months];
  });
}

const demoFile = readFileSync("data-demo/repairs.csv");

/** The invented cases, and others of the same unit drawn by other seeds. */
const attacked = [
  ...["demo", "yearly-audit", "quarterly-meeting", "buckle-failures"].map((notebook) => ({
    ...{ notebook, of: "the demo", bytes: demoFile as Uint8Array },
  })),
  ...[1, 7, 13, 21, 30].map((seed) => ({
    ...{ notebook: seed % 2 === 0 ? "quarterly-meeting" : "demo", of: `cases by seed ${seed}` },
    bytes: new TextEncoder().encode(generateDemo(seed).csv),
  })),
];

describe.each(attacked)(
  "an attack on the aggregates and the shared report of $notebook over $of together",
  ({ notebook, bytes }) => {
    const behind = patientsBy(bytes);
    let record: EyeRecord;
    let file: AggregatesFile;
    let report: Told[];
    beforeAll(async () => {
      const session = await sessionOf(notebook, bytes);
      record = eyesIn(session);
      const made = aggregatesOfSession(session, { version: "0", threshold, by: ["macula"] });
      if ("problems" in made) throw new Error(JSON.stringify(made.problems));
      file = made.aggregates;
      const input = reportOfSession(session, { version: "0", sha256: "" });
      const { counted, open } = shownBySharedReport(input, threshold);
      report = counted.map(({ key, rows }) => ({ key, rows, isShown: open.has(key) }));
      session.dispose();
    }, 60_000);

    test("has no small count by adding and subtracting", () => {
      const own = toldOf(record, file).filter(({ rows }) => rows.size > 0);
      expect(own.filter(({ isShown }) => isShown).length).toBeGreaterThan(20);
      const shown = report.filter(({ rows }) => rows.size > 0);
      const told = [...own, ...shown];
      const small = new Set(
        told.filter(({ rows }) => behind(rows) < threshold).map(({ key }) => key),
      );
      const isSecret = (key: string) => small.has(key) || key.includes(" less ");
      // What a count that the report never shows would be is known from the report alone, or not:
      // the file must add nothing to it.
      const hidden = [...own.map((each) => ({ ...each, isShown: false })), ...shown];
      const byReport = new Set(recovered(hidden, threshold, behind));
      const known = hidden.map((each) => ({
        ...each,
        isShown: each.isShown || (byReport.has(each.key) && behind(each.rows) >= threshold),
      }));
      const before = new Set([...byReport, ...recovered(known, threshold, behind)]);
      const had = recovered(told, threshold, behind).filter(isSecret);
      expect(had.filter((key) => !before.has(key))).toEqual([]);
    });

    test("has small counts where only they are left out", () => {
      const own = toldOf(record, file).filter(({ rows }) => rows.size > 0);
      const only = [...own, ...report].map((each) => ({
        ...each,
        isShown: each.rows.size >= threshold,
      }));
      expect(recovered(only, threshold, behind).length).toBeGreaterThan(0);
    });

    test("pins no small count between bounds", () => {
      const bounds = countBounds(file);
      const pinned = file.groups.flatMap((group) => {
        const eyes = eyesOf(record, group, file);
        const at = { time: file.definition.days };
        const having = (what: string) =>
          eyes.filter((eye) => outcomeAt(record, eye, at) === what).length;
        const sizes = {
          ...{ eyes: eyes.length, failed: having("failed") },
          ...{ held: having("not failed"), unknown: having("not known") },
        };
        const of = bounds.get(keyOfGroup(group));
        const isSmall = (size: number) => size > 0 && size < threshold;
        return names
          .filter((name) => isSmall(sizes[name]) && of?.[name].least === of?.[name].most)
          .map((name) => `${keyOfGroup(group)} ${name}`);
      });
      expect(pinned).toEqual([]);
    });

    test("tells no small number, case, patient, surgeon or day of the calendar", () => {
      const text = JSON.stringify(file.groups);
      const numbers =
        text.match(/(?<="(?:eyes|failed|held|unknown|ended|died|reached)":)\d+/g) ?? [];
      expect(numbers.map(Number).filter((each) => each > 0 && each < threshold)).toEqual([]);
      expect(JSON.stringify(file)).not.toMatch(/\d{4}-\d{2}|patient|surgeon|case/);
    });
  },
);
