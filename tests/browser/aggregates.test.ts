import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { formatDay } from "../../src/cases/calendar-day.ts";
import { run } from "../../src/command/run.ts";
import { localDay } from "../../src/page/worker/local-day.ts";
import { textOf, unzipFiles } from "../../src/report/files/zip-files.ts";
import { findings } from "./axe-findings.ts";
import { held, holder, press, tabTo } from "./by-keyboard.ts";
import { cell, drop, dropAll, sentence, settled } from "./opened-page.ts";
import { projectPath } from "./project-path.ts";
import { withPage } from "./with-page.ts";

const open = withPage();
const into = mkdtempSync(join(tmpdir(), "holdfast-"));
const written = (name: string) => readFileSync(join(into, name), "utf8");
const names = ["unit-n.json", "unit-s.json", "unit-w.json"];
const pathOf = (name: string) => projectPath(`data-demo/departments/${name}`);
const textIn = (name: string) => readFileSync(pathOf(name), "utf8");

/** The command line's report of the demo's departments, and its aggregates of the demo's cases. */
beforeAll(async () => {
  const today = localDay(new Date());
  const command = async (...given: string[]) => {
    const speaker = { say: () => {}, warn: () => {}, isTerminal: false, today };
    expect(await run([...given, "--dated", formatDay(today), "--quiet"], speaker)).toBe(0);
  };
  const files = names.map(pathOf);
  const pooled = projectPath("notebooks/pooled.md");
  await command("report", pooled, ...files, "--aggregates", "--into", into);
  await command(
    ...["aggregates", projectPath("notebooks/demo.md"), projectPath("data-demo/repairs.csv")],
    ...["--into", join(into, "own.json"), "--unit", "unit E", "--by", "macula"],
  );
});

const dialog = (page: Page) => page.getByRole("dialog", { name: "Departments together" });
const units = (page: Page) => dialog(page).getByRole("list").locator("li strong");
const facts = (page: Page, text: string) =>
  page.locator("book-header .facts", { hasText: text }).waitFor();

async function openPooled(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Notebooks" }).click();
  await page.getByRole("button", { name: "Three invented units, their aggregates" }).click();
  await cell(page, "apart").waitFor();
  await settled(page);
}

async function openDialog(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Departments", exact: true }).click();
  await dialog(page).waitFor();
}

/** Chooses files of aggregates in the dialog, as the browser's own dialog gives them. */
async function choose(page: Page, files: readonly (readonly [string, string])[]): Promise<void> {
  const chosen = files.map(([name, text]) => ({
    ...{ name, mimeType: "application/json" },
    buffer: Buffer.from(text),
  }));
  await page.locator("departments-dialog input[type=file]").setInputFiles(chosen);
}

async function savedBy(page: Page, press: () => Promise<void>) {
  const waiting = page.waitForEvent("download", { timeout: 60_000 });
  await press();
  const download = await waiting;
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** An unrounded number; its last digits are the engine's own, where exp and log differ. */
const digits = /(?<=[[: ,\n])-?\d+\.\d+(e-?\d+)?(?=[,}\]\r\n])/g;
const rounded = (text: string) => text.replace(digits, (n) => Number(n).toPrecision(9));

describe("the notebook of departments in the page", () => {
  it("answers at once, and its report is the command line's, byte for byte", async () => {
    const { page } = await open();
    await openPooled(page);
    await facts(page, "3 departments, 1,070 eyes");
    expect(await page.locator("book-tools .invented").textContent()).toContain("departments");
    const results = JSON.parse(written("results.json"));
    const answered = Object.keys(results.cells);
    expect(answered).toHaveLength(6);
    for (const name of answered) {
      expect(results.cells[name].sentence).toContain(await sentence(page, name));
    }
    await cell(page, "apart").click();
    await page.locator("sheet-desk").getByText("No number here opens to eyes").waitFor();
    await page.getByRole("button", { name: "Save the report" }).click();
    const save = page.getByRole("dialog", { name: "Save the report" });
    await save.getByText("no small count and no patient is in it").waitFor();
    expect(await save.getByRole("radio", { name: "Readers outside it" }).count()).toBe(0);
    const press = () => save.getByRole("button", { name: "Save", exact: true }).click();
    const one = await savedBy(page, press);
    expect(one.name).toBe("pooled report.html");
    expect(textOf(one.bytes)).toBe(written("report.html"));
    await save.getByRole("radio", { name: /^Everything/ }).check();
    const files = unzipFiles((await savedBy(page, press)).bytes);
    const told = new Map(files.map(({ name, content }) => [name, content]));
    for (const name of ["results.json", ...answered.map((each) => `${each}.csv`)]) {
      expect(rounded(textOf(told.get(name) as Uint8Array)), name).toBe(rounded(written(name)));
    }
    expect([...told.keys()]).toEqual(expect.arrayContaining(["slides.pptx", "apart.svg"]));
  });

  it("waits for its departments where there are none, and says that cases are something else", async () => {
    const { page } = await open();
    await openPooled(page);
    await openDialog(page);
    for (let left = 3; left > 0; left--) {
      await expect.poll(() => units(page).count()).toBe(left);
      const first = await units(page).first().textContent();
      await dialog(page)
        .getByRole("button", { name: `Remove ${first}` })
        .click();
    }
    await dialog(page).getByText("None. Open the files").waitFor();
    await page.keyboard.press("Escape");
    await facts(page, "no departments yet");
    const waiting = cell(page, "together").getByText("cases do not answer this");
    await waiting.waitFor();
    await drop(page, "mine.csv", readFileSync(projectPath("data-demo/repairs.csv"), "utf8"));
    await page.getByText("mine.csv is open, but this notebook asks of departments").waitFor();
    await page.getByRole("button", { name: "Save the report" }).click();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("was not saved: no aggregates of departments are open").waitFor();
    await page.keyboard.press("Escape");
    for (let n = 0; n < 4; n++) await page.getByRole("button", { name: "Undo" }).click();
    await facts(page, "3 departments, 1,070 eyes");
  });
});

describe("a reader's own departments", () => {
  const own = names.map((name) => [name, textIn(name).replace("unit ", "clinic ")] as const);

  it("are opened together, added to, shown with what they withhold, and removed", async () => {
    const { page } = await open();
    await openPooled(page);
    await openDialog(page);
    await choose(page, own.slice(0, 2));
    await expect.poll(() => units(page).allTextContents()).toEqual(["clinic N", "clinic S"]);
    await dialog(page).getByText("redetachment, within 6 months").waitFor();
    const first = dialog(page).getByRole("listitem").first();
    expect(await first.textContent()).toMatch(/operated from 2023 Q1 to 2025 Q4, 340 eyes/);
    expect(await first.textContent()).toMatch(/No count from 1 to 4: 38 of 88 counts withheld/);
    await page.keyboard.press("Escape");
    await facts(page, "2 departments, 860 eyes");
    await dropAll(page, own.slice(2));
    await facts(page, "3 departments, 1,070 eyes");
    await settled(page);
    const { cells } = JSON.parse(written("results.json"));
    expect(cells.when.sentence).toContain(await sentence(page, "when"));
    await openDialog(page);
    await dialog(page).getByRole("button", { name: "Remove clinic S" }).click();
    await expect.poll(() => units(page).allTextContents()).toEqual(["clinic N", "clinic W"]);
    expect(await holder(page)).toBe("Open aggregates");
  });

  it("stay where a further file is faulty, which is told by its name", async () => {
    const { page } = await open();
    await openPooled(page);
    await dropAll(page, own);
    await facts(page, "3 departments");
    await settled(page);
    const before = await sentence(page, "together");
    await openDialog(page);
    await choose(page, [
      ["torn.json", own[0]![1].slice(0, 900)],
      ["foreign.json", '{"rows": []}'],
      ["newer.json", own[0]![1].replace('aggregates": 1', 'aggregates": 9')],
      ["again.json", own[0]![1]],
    ]);
    const alert = dialog(page).getByRole("alert");
    await alert
      .getByText("Nothing was opened; the departments that were open still are.")
      .waitFor();
    const told = (await alert.locator("pre").allTextContents()).join("\n");
    expect(told).toContain("torn.json: the file is not JSON");
    expect(told).toContain("foreign.json, holdfast_aggregates: this is not a file of aggregates");
    expect(told).toContain("newer.json, holdfast_aggregates: the file was written by a newer");
    expect(told).toContain("again.json, unit: two files are of the same department");
    expect(await units(page).allTextContents()).toEqual(["clinic N", "clinic S", "clinic W"]);
    expect(await findings(page)).toEqual([]);
    await page.keyboard.press("Escape");
    expect(await sentence(page, "together")).toBe(before);
  });

  it("are told of where the notebook asks of cases, which go on", async () => {
    const { page } = await open();
    const before = await sentence(page, "how_often");
    await drop(page, ...own[0]!);
    await page.getByText("this notebook asks of cases and not of departments").waitFor();
    await facts(page, "repairs.csv");
    expect(await sentence(page, "how_often")).toBe(before);
  });
});

describe("handing over one's own", () => {
  it("saves what the command line writes, by the keyboard alone, and shows it", async () => {
    const { page } = await open();
    await tabTo(page, /^Departments$/);
    await press(page, "Enter");
    await dialog(page).waitFor();
    await tabTo(page, /^Open aggregates$/);
    await tabTo(page, /^Name or code/);
    await page.keyboard.press("Control+A");
    await page.keyboard.type("unit E");
    await tabTo(page, /^Group by these as well$/);
    await press(page, "Enter");
    await tabTo(page, /^macula$/);
    await press(page, "Space");
    await tabTo(page, /^Save the aggregates$/);
    const saved = await savedBy(page, () => page.keyboard.press("Enter"));
    expect(saved.name).toBe("demo aggregates.json");
    expect(textOf(saved.bytes)).toBe(written("own.json"));
    await dialog(page).getByText("Saved as demo aggregates.json. Read it").waitFor();
    await held(page);
    await tabTo(page, /^What is in the file$/);
    await press(page, "Enter");
    const shown = dialog(page).getByRole("region", { name: "What is in the file" });
    expect(await shown.textContent()).toBe(written("own.json"));
    expect(await findings(page)).toEqual([]);
    await press(page, "Escape");
    expect(await holder(page)).toBe("Departments");
  });

  it("says why there is nothing to hand over", async () => {
    const { page } = await open();
    await openPooled(page);
    await openDialog(page);
    await dialog(page).getByText("No cell of this notebook follows eyes of your own").waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Notebooks" }).click();
    await page.getByRole("button", { name: /demo\.md/ }).click();
    await settled(page);
    await cell(page, "failure_means").getByText("detached at last visit").click();
    await settled(page);
    await openDialog(page);
    await dialog(page).getByRole("button", { name: "Save the aggregates" }).click();
    await dialog(page).getByText("The aggregates were not saved.").waitFor();
    await dialog(page).getByText("followed for the same length of time").waitFor();
  });
});

describe("at other widths", () => {
  it.each([
    [1024, 768],
    [390, 844],
  ])("%d by %d, axe finds nothing in the dialog, and nothing stands beside it", async (...size) => {
    const [width, height] = size;
    const { page } = await open({ width, height });
    await openPooled(page);
    await openDialog(page);
    expect(await findings(page)).toEqual([]);
    const wide = await dialog(page).evaluate((each) => [each.scrollWidth, each.clientWidth]);
    expect(wide[0]).toBe(wide[1]);
  });
});
