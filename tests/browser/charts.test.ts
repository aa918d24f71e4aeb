import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { NodeSession } from "./node-session.ts";
import { cell, textOf } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

async function chartOf(page: Page, name: string) {
  await cell(page, name).scrollIntoViewIfNeeded();
  const chart = cell(page, name).locator("answer-chart");
  await chart.locator("svg").first().waitFor();
  return chart;
}

async function curves() {
  const { chart } = (await new NodeSession().answers()).get("when")!;
  if (chart?.draw !== "attachment curves") throw new Error("no curves");
  return chart.curves;
}

describe("the keyboard on a chart", () => {
  it("walks along a curve, telling each step, and opens the eyes behind it", async () => {
    const { page } = await open();
    const chart = await chartOf(page, "when");
    const said = chart.locator(".said");
    const [group] = (await curves()).groups;
    const [first, second] = group!.steps;
    await chart.locator(".ground").focus();
    await page.keyboard.press("ArrowRight");
    const start = first!.time === 0 ? first!.time : 0;
    await expect.poll(() => said.textContent()).toContain(`${group!.label}, day ${start}, `);
    await page.keyboard.press("ArrowRight");
    const step = first!.time === 0 ? second! : first!;
    await expect.poll(() => said.textContent()).toContain(`${group!.label}, day ${step.time}, `);
    expect(await said.textContent()).toContain(
      `${(step.survival * 100).toFixed(1)}% still attached`,
    );
    expect(await said.textContent()).toContain(`${step.atRisk} at risk`);
    await chart.locator(".mark").waitFor();
    await page.keyboard.press("Enter");
    await page.locator("eyes-behind tbody tr").first().waitFor();
    await page.keyboard.press("ArrowDown");
    const [, other] = (await curves()).groups;
    await expect.poll(() => said.textContent()).toContain(other!.label);
    await page.keyboard.press("Escape");
    await expect.poll(() => said.textContent()).toBe("");
  });
});

describe("the groups of a chart", () => {
  it("are hidden and shown", async () => {
    const { page } = await open();
    const chart = await chartOf(page, "when");
    const texts = () => chart.locator("svg text").allTextContents();
    const label = (await curves()).groups[1]!.label;
    const count = async () => (await texts()).filter((text) => text.startsWith(label)).length;
    const before = await count();
    await chart.getByText("Groups and copies").click();
    await chart.getByLabel(label, { exact: true }).uncheck();
    await expect.poll(count).toBeLessThan(before);
    await chart.getByLabel(label, { exact: true }).check();
    await expect.poll(count).toBe(before);
  });
});

describe("copies of a chart", () => {
  async function take(name: string) {
    const { page } = await open();
    const chart = await chartOf(page, "when");
    await chart.getByText("Groups and copies").click();
    const waiting = page.waitForEvent("download");
    await chart.getByRole("button", { name, exact: true }).click();
    const download = await waiting;
    return { name: download.suggestedFilename(), path: await download.path(), page, chart };
  }

  it("are a drawing with its description and its type", async () => {
    const { name, path } = await take("SVG");
    const svg = textOf(path);
    expect(name).toBe("when.svg");
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"[^>]+aria-label="Share of eyes/,
    );
    expect(svg).toContain("@font-face");
    expect(svg).not.toMatch(/<script|on[a-z]+=/);
  });

  it("are an image of twice the size", async () => {
    const { name, path, chart } = await take("PNG");
    expect(name).toBe("when.png");
    const { readFileSync } = await import("node:fs");
    const bytes = readFileSync(path);
    expect([...bytes.subarray(1, 4)]).toEqual([0x50, 0x4e, 0x47]);
    const shown = await chart.locator("svg").first().boundingBox();
    // Rooms are measured in steps of 20 pixels; the drawing keeps its own width.
    expect(Math.abs(bytes.readUInt32BE(16) - 2 * shown!.width)).toBeLessThan(4);
  });

  it("are the numbers, unrounded", async () => {
    const { name, path } = await take("CSV");
    expect(name).toBe("when.csv");
    const lines = textOf(path).trim().split("\r\n");
    const [group] = (await curves()).groups;
    const steps = (await curves()).groups.flatMap(({ steps: all }) => all);
    expect(lines.length).toBeGreaterThanOrEqual(steps.length);
    expect(textOf(path)).toContain(String(group!.steps[0]!.survival));
  });
});
