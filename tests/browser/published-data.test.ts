import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { NodeSession } from "./node-session.ts";
import { drop, sentence, sentences, settled } from "./opened-page.ts";
import { projectPath } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();
const notebook = readFileSync(projectPath("notebooks/retinopathy.md"), "utf8");
const cases = readFileSync(projectPath("tests/references/data/retinopathy.csv"), "utf8");

describe("a published data set with one row an eye, its time and its event", () => {
  // Huster, Brookmeyer and Self, Biometrics 1989;45:145; numbers by R's survdiff and survfit.
  it("dropped with its notebook, gives its published numbers on the page", async () => {
    const { page } = await open();
    await drop(page, "retinopathy.md", notebook);
    await drop(page, "retinopathy.csv", cases);
    await page.locator("book-header .facts", { hasText: "retinopathy.csv" }).waitFor();
    await settled(page);
    expect(await sentence(page, "differ")).toContain("log-rank test: chi-square 22.25 on 1 degree");
    expect(await sentence(page, "how_often")).toContain("Of 394 eyes, 155 failed: 39.3%");
    expect(await sentences(page)).toEqual(await new NodeSession(cases, notebook).sentences());
  });
});
