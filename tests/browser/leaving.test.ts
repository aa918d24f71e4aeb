import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import packageFacts from "../../package.json" with { type: "json" };
import { formatDay } from "../../src/cases/calendar-day.ts";
import { localDay } from "../../src/page/worker/local-day.ts";
import { copyOfFinding } from "../../src/report/copy-of-finding.ts";
import { reportFiles } from "../../src/report/files/report-files.ts";
import { textOf, unzipFiles } from "../../src/report/files/zip-files.ts";
import type { ReportInput } from "../../src/report/report-input.ts";
import { reportOfSession } from "../../src/report/report-of-session.ts";
import { sharedReport } from "../../src/report/sharing/shared-report.ts";
import { findings } from "./axe-findings.ts";
import { demoCases, demoNotebook, NodeSession } from "./node-session.ts";
import { cell, drop, focused, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** A file of their own: the first rows of the demo under another name. */
const ownCases = demoCases
  .split(/(?<=\n)/)
  .slice(0, 301)
  .join("");

/** The report as the command line makes it, dated as the page dates it. */
async function nodeReport(cases = demoCases, name = "repairs.csv"): Promise<ReportInput> {
  const { session } = new NodeSession();
  session.openNotebook("demo.md", demoNotebook);
  session.openCases(name, new TextEncoder().encode(cases));
  await session.sheet.settled();
  return reportOfSession(session as never, {
    version: packageFacts.version,
    sha256: createHash("sha256").update(cases).digest("hex"),
    dated: formatDay(localDay(new Date())),
  });
}

const dialog = (page: Page) => page.getByRole("dialog", { name: "Save the report" });

async function openDialog(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Save the report" }).click();
  await dialog(page).waitFor();
}

/** Saves in a form and gives the file. */
async function saved(page: Page, form: string): Promise<{ name: string; bytes: Uint8Array }> {
  await dialog(page)
    .getByRole("radio", { name: new RegExp(`^${form}`) })
    .check();
  const waiting = page.waitForEvent("download", { timeout: 60_000 });
  await dialog(page).getByRole("button", { name: "Save", exact: true }).click();
  const download = await waiting;
  await dialog(page).getByText(`Saved as ${download.suggestedFilename()}`).waitFor();
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** An unrounded number; its last digits are the engine's own, where exp and log differ. */
const digits = /(?<=[[: ,\n])-?\d+\.\d+(e-?\d+)?(?=[,}\]\r\n])/g;

/** Texts by name; pictures and slides are left out, which are drawn by other means in Node. */
function texts(files: readonly { readonly name: string; readonly content: string | Uint8Array }[]) {
  return new Map(
    files
      .filter(({ name }) => /\.(html|csv|json)$/.test(name))
      .map(({ name, content }) => {
        const text = typeof content === "string" ? content : textOf(content);
        const isData = /\.(json|csv)$/.test(name);
        return [name, isData ? text.replace(digits, (n) => Number(n).toPrecision(9)) : text];
      }),
  );
}

describe("the report of the demo", () => {
  it("is the same from the page as from the command line, byte for byte", async () => {
    const { page } = await open();
    await openDialog(page);
    const input = await nodeReport();
    const expected = texts(await reportFiles(input));
    const one = await saved(page, "One page");
    expect(one.name).toBe("demo report.html");
    expect(textOf(one.bytes)).toBe(expected.get("report.html"));
    const all = await saved(page, "Everything");
    expect(all.name).toBe("demo report.zip");
    expect(texts(unzipFiles(all.bytes))).toEqual(expected);
  });

  it("to be shared says what it withholds, shows no smaller count, and is the same again", async () => {
    const { page } = await open();
    await openDialog(page);
    await dialog(page).getByRole("radio", { name: "Readers outside it" }).check();
    const count = dialog(page).getByLabel("Smallest count that is shown");
    expect(await count.inputValue()).toBe("5");
    const said = dialog(page).getByText(/^Something is withheld in \d+ cells$/);
    await said.waitFor();
    await count.fill("10");
    await count.press("Tab");
    const input = await nodeReport();
    const seed = Number.parseInt(input.cases.sha256.slice(0, 8), 16);
    const shared = sharedReport(input, { threshold: 10, seed });
    const withheld = shared.cells.filter(({ withheld: lines = [] }) => lines.length > 0);
    await dialog(page).getByText(`withheld in ${withheld.length} cells`).click();
    const lines = dialog(page).getByRole("listitem");
    await expect.poll(() => lines.count()).toBe(withheld.length);
    expect(await lines.first().textContent()).toContain(withheld[0]!.withheld![0]);
    const one = await saved(page, "One page");
    expect(one.name).toBe("demo report to share.html");
    const [expected] = await reportFiles(shared);
    expect(textOf(one.bytes)).toBe(expected!.content);
  });
});

describe("a file of one's own", () => {
  it("is opened from disk, recalculated and saved as page, slides and zip under the policy", async () => {
    const { page } = await open();
    await drop(page, "own.csv", ownCases);
    await page.locator("book-header .facts", { hasText: "own.csv" }).waitFor();
    await settled(page);
    await openDialog(page);
    const input = await nodeReport(ownCases, "own.csv");
    const expected = texts(await reportFiles(input));
    expect(textOf((await saved(page, "One page")).bytes)).toBe(expected.get("report.html"));
    const slides = await saved(page, "Slides");
    expect(slides.name).toBe("demo slides.pptx");
    const parts = unzipFiles(slides.bytes).map(({ name }) => name);
    expect(parts).toEqual(expect.arrayContaining(["[Content_Types].xml", "ppt/presentation.xml"]));
    expect(
      parts.filter((name) => /^ppt\/slides\/slide\d+\.xml$/.test(name)).length,
    ).toBeGreaterThan(8);
    expect(parts.filter((name) => name.endsWith(".svg")).length).toBeGreaterThan(3);
    const all = unzipFiles((await saved(page, "Everything")).bytes);
    expect(texts(all)).toEqual(expected);
    const names = all.map(({ name }) => name);
    expect(names).toEqual(
      expect.arrayContaining(["slides.pptx", "how_often.svg", "how_often.png", "when.png"]),
    );
    const png = all.find(({ name }) => name === "when.png")!.content;
    expect(Buffer.from(png.subarray(1, 4)).toString()).toBe("PNG");
  });
});

describe("the dialog", () => {
  it("is walked and left by keyboard alone, and leaves axe-core nothing to find", async () => {
    const { page } = await open();
    const button = page.getByRole("button", { name: "Save the report" });
    await button.focus();
    await page.keyboard.press("Enter");
    await dialog(page)
      .getByRole("radio", { name: /^One page/ })
      .focus();
    await page.keyboard.press("ArrowDown");
    expect(
      await dialog(page)
        .getByRole("radio", { name: /^Slides/ })
        .isChecked(),
    ).toBe(true);
    await page.keyboard.press("Tab");
    await page.keyboard.press("ArrowDown");
    await dialog(page)
      .getByText(/^Something is withheld in/)
      .click();
    expect(await findings(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => dialog(page).count()).toBe(0);
    await expect.poll(() => focused(page)).toBe("Save the report");
  });

  it("takes no smallest count under 2, and begins with the one of the notebook", async () => {
    const { page } = await open();
    await drop(
      page,
      "ten.md",
      demoNotebook.replace("holdfast: 1", "holdfast: 1\nsmallest_count: 10"),
    );
    await page
      .getByRole("button", { name: "Undo", exact: true })
      .and(page.locator(":enabled"))
      .waitFor();
    await settled(page);
    await openDialog(page);
    await dialog(page)
      .getByRole("radio", { name: /^Readers/ })
      .check();
    const count = dialog(page).getByLabel("Smallest count that is shown");
    expect(await count.inputValue()).toBe("10");
    await count.fill("1");
    await count.press("Tab");
    expect(await count.inputValue()).toBe("10");
  });
});

describe("copying a cell", () => {
  async function copied(page: Page) {
    return page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      const text = async (type: string) => (await item!.getType(type)).text();
      const { width } = await createImageBitmap(await item!.getType("image/png"));
      return { plain: await text("text/plain"), html: await text("text/html"), width };
    });
  }

  it.each([
    ["Ctrl+C", (page: Page) => page.keyboard.press("Control+c")],
    ["its button", (page: Page) => page.locator("cell-tools").getByText("Copy the answer").click()],
  ])("by %s puts its text, its table and its picture on the clipboard", async (_, press) => {
    const { page } = await open();
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await cell(page, "when").focus();
    await press(page);
    await page.getByText("when is on the clipboard, as text, table and picture.").waitFor();
    const finding = (await nodeReport()).cells.find(({ name }) => name === "when")!;
    const expected = (await copyOfFinding(finding))!;
    const { plain, html, width } = await copied(page);
    expect(plain.replaceAll("\r\n", "\n")).toBe(expected.text);
    expect(html).toContain("<table");
    expect(html.match(/<t[hd]/g)).toHaveLength(expected.html.match(/<t[hd]/g)!.length);
    expect(width).toBe(2 * Number(/width="(\d+)"/.exec(expected.svg!)![1]));
  });

  it("of a value or a setting puts its words there", async () => {
    const { page } = await open();
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await cell(page, "eyes").focus();
    await page.keyboard.press("Control+c");
    await page.getByText("eyes is on the clipboard.").waitFor();
    const shown = await cell(page, "eyes").locator(".plain").textContent();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(shown);
    await cell(page, "window").focus();
    await page.keyboard.press("Control+c");
    await page.getByText("window is on the clipboard.").waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe("6 months");
  });
});
