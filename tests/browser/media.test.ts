import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { buildFixture } from "./build-fixture.ts";
import { cell } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

/**
 * What moves or would move, through all shadow roots: animations, and transitions to come. What is
 * there at once, only later, does not move.
 */
function moving(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const atOnce = 0.001;
    const seconds = (text: string) => Math.max(...text.split(",").map(Number.parseFloat));
    const found: string[] = [];
    const visit = (root: ParentNode): void => {
      for (const element of root.querySelectorAll("*")) {
        const { animationDuration, transitionDuration, scrollBehavior } = getComputedStyle(element);
        const name = `${element.localName}.${element.className}`;
        if (seconds(animationDuration) > atOnce) found.push(`${name} is animated`);
        if (seconds(transitionDuration) > atOnce) found.push(`${name} has a transition`);
        if (scrollBehavior === "smooth") found.push(`${name} scrolls smoothly`);
        if (element.shadowRoot) visit(element.shadowRoot);
      }
    };
    visit(document);
    return [...new Set(found)];
  });
}

describe("with reduced motion", () => {
  it("nothing moves: sheet, desk, cases, meeting and dialogs", async () => {
    const { page } = await open();
    await cell(page, "how_often").locator("answer-sentence button").first().click();
    await page.locator("eyes-behind tbody tr").first().waitFor();
    await page.locator(".cm-content").click();
    expect(await moving(page)).toEqual([]);
    await button(page, "Ask another question").click();
    expect(await moving(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await button(page, "Cases").click();
    await page.locator("[role=rowheader]").first().waitFor();
    expect(await moving(page)).toEqual([]);
    await button(page, "Meeting").click();
    await page.locator("meeting-page[shown] answer-chart svg").waitFor();
    await button(page, "Pages").click();
    expect(await moving(page)).toEqual([]);
    await page.emulateMedia({ reducedMotion: "no-preference" });
    expect(await moving(page)).toContain("button. has a transition");
  });

  it("nothing moves while a cell is worked out anew", async () => {
    const { page } = await open({ file: await buildFixture(), settle: false });
    expect(await page.locator("sheet-cell .state.recalculating").count()).toBe(1);
    expect(await moving(page)).toEqual([]);
  });
});

/** Colours of a part as they are drawn. */
function colours(part: Locator): Promise<{ ground: string; text: string; edges: string }> {
  return part.evaluate((element) => {
    const { backgroundColor, color, borderLeftColor, borderBottomColor } =
      getComputedStyle(element);
    return {
      ground: backgroundColor,
      text: color,
      edges: `${borderLeftColor} ${borderBottomColor}`,
    };
  });
}

describe.each(["light", "dark"] as const)("with colours of the reader's own, %s", (colorScheme) => {
  it("what is chosen, current, marked and drawn can still be told", async () => {
    const { page } = await open();
    await page.emulateMedia({ forcedColors: "active", colorScheme });
    await cell(page, "failure_means").focus();
    const choices = cell(page, "failure_means").locator(".choice label");
    const [chosen, other] = [await colours(choices.nth(0)), await colours(choices.nth(1))];
    expect(chosen.ground).not.toBe(other.ground);
    const [own, beside] = [
      await colours(cell(page, "failure_means")),
      await colours(cell(page, "window")),
    ];
    expect(own.edges).not.toBe(beside.edges);
    const [sheet, cases] = [
      await colours(button(page, "Sheet")),
      await colours(button(page, "Cases")),
    ];
    expect(sheet.edges).not.toBe(cases.edges);
    await cell(page, "when").scrollIntoViewIfNeeded();
    const ground = cell(page, "when").locator("answer-chart .ground");
    await ground.locator("svg").waitFor();
    expect((await colours(ground)).ground).toBe("rgb(247, 244, 236)");
  });

  it("marked values of the grid have a line around them, and the black page is black", async () => {
    const { page } = await open();
    await page.emulateMedia({ forcedColors: "active", colorScheme });
    await button(page, "Cases").click();
    await page.locator('case-grid [data-place="1 3"]').click();
    await page.keyboard.press("Shift+ArrowDown");
    const marked = page.locator('case-grid [aria-selected="true"]');
    await expect.poll(() => marked.count()).toBe(2);
    for (const each of await marked.all()) {
      expect(await each.evaluate((at) => getComputedStyle(at).outlineStyle)).not.toBe("none");
    }
    await button(page, "Meeting").click();
    await page.locator("meeting-page[shown]").waitFor();
    await page.keyboard.press("b");
    expect((await colours(page.locator("meeting-leaf .black"))).ground).toBe("rgb(0, 0, 0)");
  });
});
