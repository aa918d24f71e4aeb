import { describe, expect, it } from "vitest";
import { withPage } from "./with-page.ts";

const open = withPage();

describe("printing", () => {
  it("draws every chart first, on the sheet and in the meeting", async () => {
    const { page } = await open();
    await page.evaluate(() => {
      const drawn = () => {
        const inside = (root: ParentNode): Element[] =>
          [...root.querySelectorAll("*")].flatMap((each) =>
            each.localName === "answer-chart"
              ? [each]
              : each.shadowRoot === null
                ? []
                : inside(each.shadowRoot),
          );
        return inside(document).map((each) => each.shadowRoot!.querySelector("svg") !== null);
      };
      const all = window as unknown as { printed: boolean[][] };
      all.printed = [];
      window.print = () => all.printed.push(drawn());
    });
    await page.getByRole("button", { name: "Print", exact: true }).click();
    const printed = () =>
      page.evaluate(() => (window as unknown as { printed: boolean[][] }).printed);
    await expect.poll(async () => (await printed()).length).toBe(1);
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.keyboard.press("Control+p");
    await expect.poll(async () => (await printed()).length).toBe(2);
    for (const charts of await printed()) {
      expect(charts.length).toBeGreaterThan(2);
      expect(charts.every((isDrawn) => isDrawn)).toBe(true);
    }
  });

  it("leaves out what is for the screen, and breaks the meeting into pages", async () => {
    const { page } = await open();
    await page.emulateMedia({ media: "print" });
    for (const name of ["book-tools", "sheet-desk", "sheet-guide", "three-ways"]) {
      expect([name, await page.locator(name).isVisible()]).toEqual([name, false]);
    }
    expect(await page.locator("sheet-cell").first().isVisible()).toBe(true);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("button", { name: "Meeting", exact: true }).click();
    await page.locator("meeting-page[shown]").waitFor();
    await page.emulateMedia({ media: "print" });
    const pages = page.locator("meeting-page");
    const shown = await pages.evaluateAll((all) =>
      all.map((each) => each.getBoundingClientRect().height > 0),
    );
    expect(shown.length).toBeGreaterThan(3);
    expect(shown.every((isShown) => isShown)).toBe(true);
    expect(await page.locator("meeting-leaf footer").isVisible()).toBe(false);
  });
});
