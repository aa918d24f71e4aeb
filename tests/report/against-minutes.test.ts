import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import { againstMinutes } from "../../src/report/against-minutes.ts";
import type { ReportedMinute, ReportInput } from "../../src/report/report-input.ts";
import { reportPage } from "../../src/report/report-page.ts";
import { sharedReport } from "../../src/report/sharing/shared-report.ts";
import { slidesOf } from "../../src/report/slides/slides-of.ts";
import { reportOf } from "./disclosure/shared-notebook.ts";

const told = { day: "2026-03-14", told: "60 of 442", because: [] };
const minutes: Readonly<Record<string, readonly ReportedMinute[]>> = {
  how_often: [{ ...told, check: { verdict: "holds" } }],
  when: [
    {
      ...told,
      check: { verdict: "moved", was: "60 of 442", now: "61 of 443" },
      because: ["1 row new"],
    },
  ],
  why: [{ ...told, check: { verdict: "cannot be checked", why: "it has no value" } }],
  differ: [{ ...told, check: { verdict: "moved", was: "60 of 442", now: "2 of 3" } }],
};

let input: ReportInput;
beforeAll(async () => {
  const read = await reportOf("notebooks/demo.md", readFileSync("data-demo/repairs.csv"));
  const cells = read.cells.map((cell) => ({ ...cell, minuted: minutes[cell.name] ?? [] }));
  input = { ...read, cells };
});

describe("how it stands against what was minuted", () => {
  test("every minuted figure, those that moved first, with what it is now and why", () => {
    expect(againstMinutes(input).map(({ cell, verdict, now }) => [cell, verdict, now])).toEqual([
      ["when", "moved", "61 of 443"],
      ["why", "cannot be checked", "it has no value"],
      ["differ", "moved", "2 of 3"],
      ["how_often", "holds", "60 of 442"],
    ]);
  });

  test("stands in the report, led to by its contents, and on a slide", async () => {
    const page = await reportPage(input);
    expect(page).toContain('<a href="#against">Against what was minuted</a>');
    const [section = ""] = page.match(/<section class="against">[\s\S]*?<\/section>/) ?? [];
    const rows = [...section.matchAll(/<tr class="([a-z-]+)">([\s\S]*?)<\/tr>/g)].map(
      ([, verdict, cells = ""]) => [
        verdict,
        cells
          .replace(/<[^>]*>/g, "|")
          .split(/[|\n]+/)
          .filter(Boolean),
      ],
    );
    expect(rows[0]).toEqual([
      "moved",
      ["when", "2026-03-14", "60 of 442", "61 of 443", "moved", "1 row new"],
    ]);
    expect(rows[2]?.[1]?.at(-1)).toBe("not known");
    const parts = Object.entries(unzipSync(await slidesOf(input, async () => undefined)));
    const slides = parts.filter(([name]) => /^ppt\/slides\/slide/.test(name));
    expect(slides.some(([, bytes]) => strFromU8(bytes).includes("1 row new"))).toBe(true);
  });

  test("nothing stands there where nothing was minuted, nor in a report to share", async () => {
    const none = { ...input, cells: input.cells.map((cell) => ({ ...cell, minuted: [] })) };
    expect(await reportPage(none)).not.toContain("Against what was minuted");
    const shared = sharedReport(input, { threshold: 5, seed: 1 });
    expect(await reportPage(shared)).not.toContain("Against what was minuted");
  });
});
