import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import type { ReportInput } from "../../src/report/report-input.ts";
import { reportPage } from "../../src/report/report-page.ts";
import { sharedReport } from "../../src/report/sharing/shared-report.ts";
import { slidesOf } from "../../src/report/slides/slides-of.ts";
import { reportOf } from "./disclosure/shared-notebook.ts";

let input: ReportInput;
beforeAll(async () => {
  const read = await reportOf(
    "notebooks/quarterly-meeting.md",
    readFileSync("data-demo/repairs.csv"),
  );
  input = { ...read, dated: "2026-03-31" };
});

/** Term and text of each line under the title. */
async function factsOf(report: ReportInput): Promise<ReadonlyMap<string, string>> {
  const [list = ""] = (await reportPage(report)).match(/<dl class="facts">[\s\S]*?<\/dl>/) ?? [];
  const lines = [...list.matchAll(/<dt>(.*?)<\/dt><dd>(.*?)<\/dd>/g)];
  return new Map(lines.map(([, term = "", text = ""]) => [term, text.replace(/<[^>]*>/g, "")]));
}

describe("the title page", () => {
  test("says the unit, the period, who made it for whom, the date, the cases and the version", async () => {
    const facts = await factsOf(input);
    expect([...facts.keys()]).toEqual([
      ...["Unit", "Period", "Made by", "For", "Date", "Cases", "Version"],
    ]);
    expect(facts.get("Unit")).toBe("Saltmarsh eye unit (invented)");
    expect(facts.get("Made by")).toBe("audit lead");
    expect(facts.get("For")).toBe("the audit meeting of the department");
    expect(facts.get("Date")).toBe("2026-03-31");
    const { rowsRead, rowsKept, rowsLeftOut, sha256 } = input.cases;
    expect(rowsRead).toBe(rowsKept + rowsLeftOut);
    expect(sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(facts.get("Cases")).toBe(
      `repairs.csv: ${rowsRead} rows read, ${rowsKept} kept, ${rowsLeftOut} left out SHA-256 ${sha256}`,
    );
    expect(facts.get("Version")).toBe("Holdfast 0");
  });

  test("says nothing of what the notebook does not say", async () => {
    const { madeBy: _, reader: __, period: ___, dated: ____, ...rest } = input;
    expect([...(await factsOf(rest)).keys()]).toEqual(["Unit", "Cases", "Version"]);
  });

  test("names every file that lies over the cases, with its digest and its rows", async () => {
    const digest = "a".repeat(64);
    const cases = {
      ...input.cases,
      corrections: { applied: 2, notFitting: 1 },
      laid: [
        { name: "later.csv", sha256: digest, rowsRead: 12 },
        { name: "list.csv", sha256: digest },
      ],
    };
    const facts = await factsOf({ ...input, cases });
    expect(facts.get("Further cases")).toBe(`later.csv: 12 rows read SHA-256 ${digest}`);
    expect(facts.get("Corrections")).toBe(
      `list.csv: 2 corrections applied, 1 no longer fitting SHA-256 ${digest}`,
    );
  });

  test("names the file of each department with its eyes", async () => {
    const sha256 = "b".repeat(64);
    const facts = await factsOf({ ...input, aggregates: [{ name: "n.json", sha256, unit: "N" }] });
    expect(facts.get("Aggregates")).toBe(`n.json: N, count of eyes withheld SHA-256 ${sha256}`);
    expect(facts.has("Cases")).toBe(false);
  });

  test("of a report to share tells nothing of the file, nor for whom it was first made", async () => {
    const facts = await factsOf(sharedReport(input, { threshold: 5, seed: 1 }));
    expect([...facts.keys()]).toEqual([
      ...["Unit", "Period", "Made by", "Date", "Made to be shared", "Version"],
    ]);
  });

  test("stands on the first slide, its digests in the notes", async () => {
    const files = unzipSync(await slidesOf(input, async () => undefined));
    const texts = (name: string) => strFromU8(files[name] ?? new Uint8Array());
    const facts = [...(await factsOf(input))];
    for (const [term, text] of facts) {
      const said = `${term}: ${text.replace(/ SHA-256.*/, "")}`;
      expect(texts("ppt/slides/slide1.xml")).toContain(said);
    }
    expect(texts("ppt/notesSlides/notesSlide1.xml")).toContain(input.cases.sha256);
  });
});
