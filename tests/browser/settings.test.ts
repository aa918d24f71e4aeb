import { describe, expect, it } from "vitest";
import { NodeSession } from "./node-session.ts";
import { cell, sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("changing the definition of failure", () => {
  it("changes every number that rests on it, and undo and redo walk through it", async () => {
    const { page } = await open();
    const before = await sentences(page);
    const node = new NodeSession();
    const { other, label } = node.choice("failure_means");
    await cell(page, "failure_means").getByText(label, { exact: true }).click();
    node.session.setSetting("failure_means", other);
    const after = await node.sentences();
    await expect.poll(() => sentences(page)).toEqual(after);
    for (const name of ["how_often", "by_risk", "when", "why"]) {
      expect(after.get(name)).not.toBe(before.get(name));
    }
    await page.keyboard.press("Control+z");
    await expect.poll(() => sentences(page)).toEqual(before);
    await page.keyboard.press("Control+Shift+z");
    await expect.poll(() => sentences(page)).toEqual(after);
  });

  it("names the act in the undo button", async () => {
    const { page } = await open();
    const { now, label } = new NodeSession().choice("window");
    await cell(page, "window").getByText(label, { exact: true }).click();
    await settled(page);
    const undo = page.getByRole("button", { name: "Undo" });
    expect(await undo.getAttribute("title")).toBe("Undo: set window (Ctrl+Z)");
    await undo.click();
    const before = cell(page, "window").getByRole("radio").nth(now);
    await expect.poll(() => before.isChecked()).toBe(true);
  });

  it("can be done by arrow keys, as in any group of radio buttons", async () => {
    const { page } = await open();
    const node = new NodeSession();
    const { now, other } = node.choice("window");
    await cell(page, "window").getByRole("radio").nth(now).focus();
    await page.keyboard.press(other < now ? "ArrowLeft" : "ArrowRight");
    expect(await cell(page, "window").getByRole("radio").nth(other).isChecked()).toBe(true);
    node.session.setSetting("window", other);
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
  });
});
