import { describe, expect, it } from "vitest";
import { cell } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

describe.each([
  [1440, 900],
  [1024, 768],
  [390, 844],
  // A window of 1440 by 900 at 200% zoom.
  [720, 450],
])("at %d by %d", (width, height) => {
  it("no leaf is wider than the window", async () => {
    const { page } = await open({ width, height });
    await cell(page, "when").scrollIntoViewIfNeeded();
    await cell(page, "when").locator("answer-chart svg").waitFor();
    for (const leaf of ["Sheet", "Cases", "Meeting"]) {
      await page.getByRole("button", { name: leaf, exact: true }).click();
      await page.waitForTimeout(100);
      const wide = await page.evaluate(() => {
        const root = document.querySelector("holdfast-book")!;
        const main = root.shadowRoot!.querySelector("main")!;
        return [document.documentElement, root, main].map((at) => at.scrollWidth - at.clientWidth);
      });
      expect([leaf, ...wide]).toEqual([leaf, 0, 0, 0]);
    }
  });

  it("everything that can be pressed is at least 24 pixels high or stands in a text", async () => {
    const { page } = await open({ width, height });
    const small = await page
      .locator("button:not(.opens):visible, input:not([type=radio]):visible, select:visible")
      .evaluateAll((all) =>
        all
          .filter((element) => element.getBoundingClientRect().height < 24)
          .map((element) => element.textContent?.trim()),
      );
    expect(small).toEqual([]);
  });
});
