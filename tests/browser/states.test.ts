import { beforeAll, describe, expect, it } from "vitest";
import { findings } from "./axe-findings.ts";
import { buildFixture } from "./build-fixture.ts";
import { cell } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();
let file = "";

beforeAll(async () => {
  file = await buildFixture();
});

const openFixture = () => open({ file, settle: false });

describe("a sheet with a cell in every state", () => {
  it("says the state in words, in the margin and to screen readers", async () => {
    const { page } = await openFixture();
    const states = await page.locator("sheet-cell .state").allTextContents();
    expect(states).toEqual(["at fault", "waits", "recalculating"]);
    expect(await cell(page, "busy").getAttribute("aria-label")).toMatch(/, recalculating$/);
    expect((await cell(page, "after_slip").locator(".body").textContent())?.trim()).toBe(
      "Waits for slip.",
    );
  });

  it("keeps the old answer in sight while it is being worked out anew", async () => {
    const { page } = await openFixture();
    expect(await cell(page, "busy").locator("answer-sentence p").textContent()).toContain(
      "60 redetached",
    );
  });

  it("tells what was minuted, whether it still holds, and what it is now", async () => {
    const { page } = await openFixture();
    const minuted = await cell(page, "how_often").locator(".minuted").allTextContents();
    expect(minuted.map((text) => text.replace(/\s+/g, " ").trim())).toEqual([
      "Minuted 2026-03-14: 60 of 442 · still so",
      "Minuted 2025-09-12: 52 of 410 · now 60 of 442: 32 rows are new",
    ]);
  });

  it("takes days only as days", async () => {
    const { page } = await openFixture();
    const until = cell(page, "period").getByLabel("to");
    const asked = () =>
      page.evaluate(() => {
        const { host } = window as unknown as { host: { asked: { ask: string }[] } };
        return host.asked.filter(({ ask }) => ask === "set setting");
      });
    await until.fill("31/12/2025");
    await until.press("Tab");
    expect(await asked()).toEqual([]);
    await until.fill("2025-12-30");
    await until.press("Tab");
    expect(await asked()).toEqual([{ ask: "set setting", cell: "period", to: [19358, 20452] }]);
  });

  it("leaves axe-core nothing to find", async () => {
    const { page } = await openFixture();
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    await cell(page, "slip").focus();
    await page.locator(".cm-content").waitFor();
    expect(await findings(page)).toEqual([]);
  });
});
