import { describe, expect, it } from "vitest";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { NodeSession } from "./node-session.ts";
import { cell, focused, sentences, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("form and working", () => {
  it("mirror each other keystroke by keystroke, with arguments that no field shows", async () => {
    const { page } = await open();
    await cell(page, "why").focus();
    await page.locator(".cm-content").waitFor();
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText("failure_causes(eyes, odd: 1, by: technique)");
    const by = page.getByLabel("By", { exact: true });
    await expect.poll(() => by.inputValue()).toBe("technique");
    expect(await page.locator("question-form .also").textContent()).toContain("odd: 1");
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText("failure_causes(eyes, odd: 1, by: le)");
    await expect.poll(() => by.inputValue()).toBe("le");
    await by.click();
    await by.press("End");
    for (const [key, text] of [
      ["n", "len"],
      ["s", "lens"],
      [",", "lens,"],
    ] as const) {
      await page.keyboard.press(key);
      await expect
        .poll(() => page.locator(".cm-content").textContent())
        .toBe(`failure_causes(eyes, odd: 1, by: ${text})`);
    }
    expect(await by.inputValue()).toBe("lens,");
    await page.keyboard.press("Escape");
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toBe("failure_causes(eyes, odd: 1, by: le)");
  });

  it("underlines a fault while it is written, its remedy one click away", async () => {
    const { page } = await open();
    await cell(page, "why").focus();
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText("failure_causes(eyse)");
    await page.locator("working-editor .cm-lintRange-error").waitFor();
    await page.locator("working-editor cell-fault").getByRole("button", { name: "eyes" }).click();
    await expect.poll(() => page.locator(".cm-content").textContent()).toBe("failure_causes(eyes)");
    await expect.poll(() => cell(page, "why").getAttribute("aria-label")).not.toContain("fault");
  });
});

describe("what a cell feeds on and feeds", () => {
  it("is walked to, and the way is told in words", async () => {
    const { page } = await open();
    await cell(page, "how_often").focus();
    const links = page.locator("cell-links");
    const said = async () => (await links.locator("p").allTextContents()).join(" ");
    await expect.poll(said).toMatch(/Feeds on\s+eyes/);
    expect(await said()).toMatch(/Last recalculated because/);
    await links.getByRole("button", { name: "eyes", exact: true }).click();
    await expect.poll(() => focused(page)).toContain("eyes, ");
    await links.getByRole("button", { name: "how_often" }).click();
    await expect.poll(() => focused(page)).toContain("how_often");
  });
});

describe("the eyes behind a number", () => {
  it("are opened among the cases", async () => {
    const { page } = await open();
    await cell(page, "how_often").locator("answer-sentence button").first().click();
    const rows = page.locator("eyes-behind tbody tr");
    await rows.first().waitFor();
    const [line] = ((await rows.first().locator("td").first().textContent()) ?? "").split(",");
    await page.getByRole("button", { name: "Open in Cases" }).click();
    await page.locator("cases-leaf").waitFor();
    const first = page.locator("cases-leaf [role=rowheader]").first();
    await expect.poll(async () => (await first.textContent())?.trim()).toBe(line);
  });
});

describe("completion", () => {
  it("tells of each word what it means", async () => {
    const { page } = await open();
    await cell(page, "why").focus();
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("failure_ra");
    const option = page.locator(".cm-tooltip-autocomplete li", { hasText: "failure_rate" });
    await option.waitFor();
    const word = vocabulary.get("failure_rate")!;
    expect(await option.locator(".cm-completionDetail").textContent()).toBe(word.meaning);
  });
});

describe("a name", () => {
  it("is followed by every working that mentions it", async () => {
    const { page } = await open();
    const before = await sentences(page);
    await cell(page, "eyes").focus();
    await page.getByLabel("Name", { exact: true }).fill("all_eyes");
    await page.getByLabel("Name", { exact: true }).press("Enter");
    await cell(page, "all_eyes").waitFor();
    const node = new NodeSession();
    node.session.renameCell("eyes", "all_eyes");
    const waiting = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save the notebook" }).click();
    expect(textOf(await (await waiting).path())).toBe(node.session.notebookText());
    expect(await sentences(page)).toEqual(before);
    expect(await page.locator("sheet-cell .state.fault").count()).toBe(0);
  });
});

describe("minuting from the desk", () => {
  it("keeps the number under the cell with today's day, once", async () => {
    const { page } = await open();
    await cell(page, "by_risk").focus();
    const control = page.getByRole("button", { name: "Minute this" });
    const told = /“(.+)”/.exec((await control.getAttribute("title")) ?? "")?.[1] ?? "";
    expect(told).toMatch(/^\d+ of \d+$/);
    await control.click();
    const line = cell(page, "by_risk").locator(".minuted");
    await expect
      .poll(async () => (await line.textContent())?.replace(/\s+/g, " ").trim())
      .toMatch(new RegExp(`^Minuted \\d{4}-\\d\\d-\\d\\d: ${told} · still so$`));
    expect(await control.count()).toBe(0);
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    expect(await undo.getAttribute("title")).toContain("minute by_risk");
  });
});
