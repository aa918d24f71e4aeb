import { describe, expect, it } from "vitest";
import { cell, focused } from "./opened-page.ts";
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
    await page.getByRole("button", { name: "Open in Cases" }).click();
    await page.locator("cases-leaf").waitFor();
    await page.locator("[role=rowheader]").first().waitFor();
  });
});
