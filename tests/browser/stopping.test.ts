import { describe, expect, it } from "vitest";
import { demoCases, NodeSession } from "./node-session.ts";
import { cell, drop, sentence, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Many cells, each of which takes its time. */
const long = `---\nholdfast: 1\n---\n\n    window = choose([3 months, 6 months, 12 months], now: 6 months)\n\n    eyes = index_eyes(cases, within: window)\n${Array.from(
  { length: 8 },
  (_, i) =>
    `\n    cell_${i} = standardised_rate(eyes, risk_stratum, age, by: technique, replicates: 200)\n`,
).join("")}`;

describe("a long recalculation", () => {
  it("tells how far it is, can be stopped, and goes on", async () => {
    const { page } = await open();
    await drop(page, "long.md", long);
    const bar = page.locator("book-notices progress");
    await bar.waitFor();
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    const goOn = page.getByRole("button", { name: "Go on", exact: true });
    await goOn.waitFor();
    const share = Number(await bar.getAttribute("value"));
    expect(share).toBeGreaterThanOrEqual(0);
    expect(share).toBeLessThan(1);
    const stopped = page.locator("sheet-cell .state", { hasText: "stopped" });
    const count = await stopped.count();
    expect(count).toBeGreaterThan(0);
    await page.waitForTimeout(500);
    expect(await stopped.count()).toBe(count);
    await goOn.click();
    await expect.poll(() => page.locator("sheet-cell .state").count(), { timeout: 50_000 }).toBe(0);
    await settled(page);
    await expect.poll(() => bar.count()).toBe(0);
    await cell(page, "cell_7").locator("answer-sentence").waitFor({ state: "attached" });
  });

  it("goes on by itself when something else is changed", async () => {
    const { page } = await open();
    await drop(page, "long.md", long);
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await page.getByRole("button", { name: "Go on", exact: true }).waitFor();
    await page.keyboard.press("Control+z");
    await page.locator("h1", { hasText: "Saltmarsh" }).waitFor();
    await settled(page);
    await expect.poll(() => page.locator("book-notices progress").count()).toBe(0);
    expect(await cell(page, "how_often").locator("answer-sentence").count()).toBe(1);
  });

  it("is stopped amidst a single cell, which then goes on to the answer of one go", async () => {
    const { page } = await open();
    const working = "standardised_rate(eyes, risk_stratum, age, by: technique, replicates: 3000)";
    const one = `---\nholdfast: 1\n---\n\n    eyes = index_eyes(cases, within: 6 months)\n\n    one = ${working}\n`;
    await drop(page, "one.md", one);
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    const goOn = page.getByRole("button", { name: "Go on", exact: true });
    await goOn.waitFor();
    await page.waitForTimeout(1500);
    expect(await cell(page, "one").locator(".state").textContent()).toBe("stopped");
    // The worker is free for whatever else is asked.
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    await page.locator("[role=rowheader]").first().waitFor();
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    await goOn.click();
    const state = cell(page, "one").locator(".state");
    await expect.poll(() => state.count(), { timeout: 45_000 }).toBe(0);
    const node = new NodeSession(demoCases, one);
    await expect.poll(() => sentence(page, "one")).toBe((await node.sentences()).get("one"));
  });
});
