import { describe, expect, it } from "vitest";
import { dayNumber, readDay } from "../../src/formula/calendar.ts";
import { demoCases, NodeSession } from "./node-session.ts";
import { cell, sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();
const dayOf = (text: string) => dayNumber(readDay(text)!);

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
    await expect.poll(() => undo.getAttribute("title")).toBe("Undo: set window (Ctrl+Z)");
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

describe("a range of dates", () => {
  it("is set at one press, to days that hold operations", async () => {
    const { page } = await open();
    const period = cell(page, "period");
    const shown = async () =>
      Promise.all(["from", "to"].map((end) => period.getByLabel(end).inputValue()));
    const presets = period.getByRole("group", { name: "Dates often asked for" });
    await presets.getByRole("button", { name: "last quarter" }).click();
    await expect.poll(shown).toEqual(["2025-10-01", "2025-12-31"]);
    const node = new NodeSession();
    const quarter = [dayOf("2025-10-01"), dayOf("2025-12-31")] as const;
    node.session.setSetting("period", quarter);
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
    await presets.getByRole("button", { name: "last financial year" }).focus();
    await page.keyboard.press("Enter");
    await expect.poll(shown).toEqual(["2025-04-01", "2026-03-31"]);
    await presets.getByRole("button", { name: "all", exact: true }).click();
    const days: readonly string[] = demoCases.match(/\d{4}-\d\d-\d\d/g) ?? [];
    await expect.poll(async () => days.includes((await shown())[0]!)).toBe(true);
    const all = presets.getByRole("button", { name: "all", exact: true });
    await expect.poll(() => all.getAttribute("aria-pressed")).toBe("true");
  });
});

describe("a number with a unit", () => {
  it("goes by steps, keeps its unit in the working and its ends", async () => {
    const { page } = await open();
    const rate = cell(page, "standard_rate");
    const field = rate.getByRole("spinbutton");
    expect(await field.getAttribute("aria-label")).toBe("standard_rate, %");
    await rate.getByRole("button", { name: "standard_rate: more" }).click();
    await expect.poll(() => field.inputValue()).toBe("11");
    await rate.getByText("standard_rate", { exact: true }).click();
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toBe("range(0%, 30%, step: 1%, now: 11%)");
    await field.fill("31");
    await field.press("Tab");
    expect(await page.locator(".cm-content").textContent()).toContain("now: 11%");
    await field.fill("30");
    await field.press("Tab");
    const more = rate.getByRole("button", { name: "standard_rate: more" });
    await expect.poll(() => more.isDisabled()).toBe(true);
  });
});

describe("by touch", () => {
  it("settings are changed, cells chosen and numbers opened", async () => {
    const { page } = await open({ width: 1024, touch: true });
    const node = new NodeSession();
    const { other, label } = node.choice("window");
    await cell(page, "window").getByText(label, { exact: true }).tap();
    node.session.setSetting("window", other);
    await expect.poll(() => sentences(page)).toEqual(await node.sentences());
    const rate = cell(page, "standard_rate").getByRole("spinbutton");
    const before = Number(await rate.inputValue());
    await cell(page, "standard_rate").getByRole("button", { name: "standard_rate: more" }).tap();
    await expect.poll(async () => Number(await rate.inputValue())).toBe(before + 1);
    await cell(page, "eyes").locator(".plain").tap();
    await expect.poll(() => cell(page, "eyes").getAttribute("aria-current")).toBe("true");
    await cell(page, "how_often").locator("answer-sentence button").first().tap();
    await page.locator("eyes-behind tbody tr").first().waitFor();
  });

  it("a finger that scrolls over cells chooses none of them", async () => {
    const { page } = await open({ width: 1024, touch: true });
    const scrolled = () => page.locator("main").evaluate((at) => at.scrollTop);
    await cell(page, "how_often").locator("answer-sentence").scrollIntoViewIfNeeded();
    const before = await scrolled();
    const box = await cell(page, "how_often").locator("answer-sentence").boundingBox();
    const finger = await page.context().newCDPSession(page);
    const [x, y] = [Math.round(box!.x + 40), Math.round(box!.y + 20)];
    const at = (type: "touchStart" | "touchMove", up: number) =>
      finger.send("Input.dispatchTouchEvent", { type, touchPoints: [{ x, y: y - up }] });
    await at("touchStart", 0);
    for (let up = 20; up <= 240; up += 20) await at("touchMove", up);
    await finger.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
    await expect.poll(scrolled).toBeGreaterThan(before + 100);
    // Longer than a tap may take to be told from the start of scrolling.
    await page.waitForTimeout(1000);
    expect(await page.locator('sheet-cell[aria-current="true"]').count()).toBe(0);
  });
});
