import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { reportPage } from "../../../src/report/report-page.ts";
import { cautionWithoutCounts } from "../../../src/report/sharing/caution-without-counts.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { tellsOtherCounts } from "../../../src/report/sharing/tells-counts.ts";
import { reportOf } from "../disclosure/shared-notebook.ts";

describe("a caution whose counts may not be told", () => {
  test.each(["small-numbers", "many-not-known", "paired-eyes", "undecided-censored", "new-one"])(
    "%s says in words what it warns of, and no number",
    (code) => {
      const { text } = cautionWithoutCounts(code);
      expect(text).toMatch(/^[A-Z][^\d]*\. \(Its counts are withheld\.\)$/);
      expect(tellsOtherCounts(text, new Set())).toBe(false);
    },
  );

  test("no report to share leaves its reader with the name of a caution alone", async () => {
    const bytes = readFileSync("data-demo/repairs.csv");
    for (const notebook of ["demo", "quarterly-meeting", "yearly-audit", "buckle-failures"]) {
      const input = await reportOf(`notebooks/${notebook}.md`, bytes);
      const page = await reportPage(sharedReport(input, { threshold: 5, seed: 1 }));
      expect(page).not.toContain("A caution on");
      expect(page).toContain("Some patients give more than one eye.");
    }
  });
});
