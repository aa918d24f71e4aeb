import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { definitionNamed } from "../../src/notebook/notebook-document.ts";
import { demoNotebook, NodeSession } from "./node-session.ts";
import { cell, focused, sentence, sentences, settled, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Puts another text into the working of a cell, by keyboard alone. */
async function write(page: Page, name: string, working: string): Promise<void> {
  await cell(page, name).focus();
  await page.keyboard.press("Enter");
  await page.locator(".cm-content").waitFor();
  await expect.poll(() => focused(page)).toContain("Working of the cell");
  await page.keyboard.press("Control+a");
  await page.keyboard.insertText(working);
}

describe("a working at fault", () => {
  it("leaves all other cells standing, and is mended by one click", async () => {
    const { page } = await open();
    const before = await sentences(page);
    await write(page, "why", "failure_causes(eyes, by: technique, limt: 3)");
    await page.keyboard.press("Control+Enter");
    await cell(page, "why").locator("cell-fault .message").waitFor();
    expect(await cell(page, "why").getAttribute("aria-label")).toContain("at fault");
    const others = new Map([...before].filter(([name]) => name !== "why"));
    expect(await sentences(page)).toEqual(others);
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+z");
    await expect.poll(() => sentences(page)).toEqual(before);
  });

  it("underlines the slip and offers the name that would fit", async () => {
    const { page } = await open();
    const before = await sentence(page, "why");
    await write(page, "why", "failure_causs(eyes)");
    await page.keyboard.press("Enter");
    const fault = cell(page, "why").locator("cell-fault");
    await fault.locator("u").waitFor();
    expect(await fault.locator("u").textContent()).toBe("failure_causs");
    await fault.getByRole("button", { name: "failure_causes" }).click();
    await expect.poll(() => sentence(page, "why")).toBe(before);
  });

  it("makes the cells behind it wait for it by name", async () => {
    const { page } = await open();
    await write(page, "eyes", "index_eyes(caes)");
    await page.keyboard.press("Control+Enter");
    await cell(page, "eyes").locator("cell-fault").waitFor();
    await settled(page);
    expect(await cell(page, "how_often").textContent()).not.toContain("redetached");
    const body = cell(page, "how_often").locator(".body p").first();
    expect((await body.textContent())?.trim()).toBe("Waits for eyes.");
  });
});

describe("the desk", () => {
  it("rewrites the working from the form, and the form from the working", async () => {
    const { page } = await open();
    await cell(page, "how_often").focus();
    await page.getByLabel("By", { exact: true }).fill("surgeon_grade");
    await page.getByLabel("By", { exact: true }).press("Tab");
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toContain("by: surgeon_grade");
    const node = new NodeSession();
    const before = definitionNamed(node.session.document, "how_often")?.working ?? "";
    node.session.setWorking("how_often", before.replace("by: technique", "by: surgeon_grade"));
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
    await write(page, "how_often", "failure_rate(eyes,by:  lens)");
    await page.keyboard.press("Control+Enter");
    await expect.poll(() => page.getByLabel("By", { exact: true }).inputValue()).toBe("lens");
    expect(await page.locator(".cm-content").textContent()).toBe("failure_rate(eyes, by: lens)");
  });

  it("completes names while they are typed", async () => {
    const { page } = await open();
    await write(page, "how_often", "failure_rate(eyes, by: ");
    await page.keyboard.type("techn");
    const first = page.locator(".cm-tooltip-autocomplete [aria-selected]");
    await first.waitFor();
    expect(await first.textContent()).toContain("technique");
    await page.waitForTimeout(100);
    await page.keyboard.press("Enter");
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toContain("failure_rate(eyes, by: technique");
  });

  it("keeps what was typed when the reader goes elsewhere", async () => {
    const { page } = await open();
    await write(page, "how_often", "failure_rate(eyes,by:lens)");
    await cell(page, "why").click();
    await cell(page, "how_often").focus();
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toBe("failure_rate(eyes, by: lens)");
  });

  it("lists the eyes behind a number, as many as the number says", async () => {
    const { page } = await open();
    const number = cell(page, "how_often").locator("answer-sentence button").first();
    const count = Number(/\d+/.exec((await number.textContent()) ?? "")?.[0]);
    await number.click();
    const rows = page.locator("eyes-behind tbody tr");
    await expect.poll(() => rows.count()).toBe(count);
    const [line] = ((await rows.first().locator("td").first().textContent()) ?? "").split(",");
    expect(Number(line)).toBeGreaterThan(1);
    expect(await number.getAttribute("aria-pressed")).toBe("true");
  });
});

describe("cells of the notebook", () => {
  it("are added from a question, renamed everywhere, and removed", async () => {
    const { page } = await open();
    await cell(page, "eyes").focus();
    await page.getByRole("button", { name: "Ask another question" }).click();
    await page
      .getByRole("dialog")
      .getByRole("button", { name: /^When did it fail/ })
      .click();
    await cell(page, "when_fail").locator("answer-sentence").waitFor();
    await page.getByLabel("Name", { exact: true }).fill("curve");
    await page.getByLabel("Name", { exact: true }).press("Enter");
    await cell(page, "curve").waitFor();
    expect(await cell(page, "when_fail").count()).toBe(0);
    await page.getByRole("button", { name: "Remove this cell" }).click();
    await expect.poll(() => cell(page, "curve").count()).toBe(0);
  });

  it("are saved as they stand, byte for byte but for what was changed", async () => {
    const { page } = await open();
    const save = async () => {
      const waiting = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save the notebook" }).click();
      return textOf(await (await waiting).path());
    };
    expect(await save()).toBe(demoNotebook);
    const node = new NodeSession();
    const { other, label } = node.choice("window");
    await cell(page, "window").getByText(label, { exact: true }).click();
    await settled(page);
    node.session.setSetting("window", other);
    const saved = await save();
    expect(saved).toBe(node.session.notebookText());
    const lines = demoNotebook.split("\n");
    const changed = saved.split("\n").filter((line, i) => line !== lines[i]);
    expect(changed).toEqual([expect.stringMatching(/^ {4}window += choose\(/)]);
  });
});
