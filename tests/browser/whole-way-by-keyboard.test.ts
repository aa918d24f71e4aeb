import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { goTo, held, holder, press, tabBackTo, tabTo } from "./by-keyboard.ts";
import { cell, sentence, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const working = (page: Page) => page.locator("working-editor .cm-content");

async function type(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await held(page);
}

/** Names of the cells that stand in one row with that one. */
async function rowOf(page: Page, name: string): Promise<readonly string[]> {
  const row = page.locator("sheet-leaf .row").filter({ has: cell(page, name) });
  return row.locator(".name").allTextContents();
}

/** From wherever the keyboard is to a cell, by its arrow keys. */
async function walkTo(page: Page, name: string): Promise<void> {
  await goTo(page, new RegExp(`^${name}, `), "ArrowDown");
}

async function saved(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.keyboard.press("Enter");
  const path = await (await download).path();
  await held(page);
  return readFile(path, "utf8");
}

describe("the whole way by keyboard alone", () => {
  it("from opening the page through the sheet and its desk", async () => {
    const { page } = await open();
    await press(page, "Tab");
    await tabTo(page, /^failure_means, /);

    // From cell to cell, to the desk and back.
    await press(page, "ArrowRight", "ArrowDown", "ArrowLeft");
    await press(page, "Home");
    expect(await holder(page)).toMatch(/^failure_means, /);
    await walkTo(page, "by_risk");
    await press(page, "Enter");
    await expect.poll(() => holder(page)).toMatch(/^Working of the cell/);

    // A word completed as it is typed, an unknown name mended by its remedy.
    await press(page, "Control+a");
    await type(page, "failure_r");
    await page.locator(".cm-tooltip-autocomplete li").first().waitFor();
    // The list takes no key at once, which may have been meant for the text.
    await page.waitForTimeout(150);
    await press(page, "Enter");
    await expect.poll(() => working(page).textContent()).toMatch(/^failure_rate/);
    await press(page, "Control+a");
    await type(page, "failure_rate(eyse, by: technique");
    await page.locator("working-editor .cm-lintRange-error").first().waitFor();
    await press(page, "Escape");
    await tabTo(page, /^Apply$/);
    await press(page, "Enter");
    await expect.poll(() => cell(page, "by_risk").getAttribute("aria-label")).toContain("at fault");
    await expect.poll(() => holder(page)).toMatch(/^Working of the cell/);
    await tabTo(page, /^Put “eyes” there$/);
    await press(page, "Enter");
    await expect.poll(() => working(page).textContent()).toContain("failure_rate(eyes,");
    await expect.poll(() => holder(page)).toMatch(/^Working of the cell/);
    await settled(page);
    await held(page);
    await press(page, "Escape");
    await expect.poll(() => holder(page)).toMatch(/^by_risk, /);
    await held(page);
    await expect
      .poll(() => cell(page, "by_risk").getAttribute("aria-label"))
      .not.toContain("fault");
  });

  it("adds, moves, resizes, copies, renames and removes a cell, and undoes it", async () => {
    const { page } = await open();
    await press(page, "Tab");
    await tabTo(page, /^failure_means, /);
    await walkTo(page, "when");

    await tabTo(page, /^Add below$/);
    await press(page, "Enter");
    await page.getByRole("dialog", { name: "What would you like to know?" }).waitFor();
    await held(page);
    await tabTo(page, /^A cell of my own$/);
    await press(page, "Enter");
    await cell(page, "value").waitFor();
    await expect.poll(() => holder(page)).toMatch(/^value, /);
    await held(page);

    expect(await rowOf(page, "value")).toEqual(["value"]);
    await press(page, "Alt+ArrowUp");
    await expect.poll(() => rowOf(page, "value")).toEqual(["when", "why", "value"]);
    await expect.poll(() => holder(page)).toMatch(/^value, /);
    await press(page, "Alt+Shift+ArrowLeft");
    await page.locator("sheet-leaf [role=status]", { hasText: "columns" }).waitFor({
      state: "attached",
    });
    expect(await holder(page)).toMatch(/^value, /);

    await tabTo(page, /^Copy the cell$/);
    await press(page, "Enter");
    await cell(page, "value_2").waitFor();
    await expect.poll(() => holder(page)).toMatch(/^value_2, /);

    await tabTo(page, /^Name$/);
    await press(page, "Control+a");
    await type(page, "seven");
    await press(page, "Enter");
    await cell(page, "seven").waitFor();
    await held(page);

    await tabTo(page, /^Remove this cell$/);
    await press(page, "Enter");
    await expect.poll(() => cell(page, "seven").count()).toBe(0);
    await expect.poll(() => holder(page)).toMatch(/^\w+, /);
    await held(page);
    await press(page, "Control+z");
    await cell(page, "seven").waitFor();
    await held(page);

    // By the button, to the end of what can be undone: it keeps the keyboard.
    await tabBackTo(page, /^Undo$/);
    for (let step = 0; step < 12; step++) await press(page, "Enter");
    await expect.poll(() => cell(page, "value").count()).toBe(0);
    expect(await holder(page)).toBe("Undo");
  });

  it("finds, and changes every kind of setting to its ends", async () => {
    const { page } = await open();
    await press(page, "Tab");
    await tabTo(page, /^failure_means, /);
    await press(page, "/");
    expect(await holder(page)).toMatch(/^Find in names/);
    await type(page, "uveitis");
    await press(page, "Enter", "Enter", "Escape");
    expect(await holder(page)).not.toMatch(/^Find/);
    await press(page, "/");
    await type(page, "nowhere to be found");
    await press(page, "Enter", "Escape");
    expect(await holder(page)).toMatch(/^\w+, /);
    await press(page, "Home");
    await tabTo(page, /^redetachment$/);
    await press(page, "ArrowRight");
    await settled(page);
    expect(await holder(page)).toBe("reoperation");
    await press(page, "Escape");
    expect(await holder(page)).toMatch(/^failure_means, /);

    await walkTo(page, "oil_is");
    await press(page, "ArrowLeft");
    expect(await holder(page)).toMatch(/^period, /);
    await tabTo(page, /^to/);
    await press(page, "Control+a");
    await type(page, "2024-12-31");
    await press(page, "Tab");
    await settled(page);
    await held(page);
    await tabTo(page, /^last quarter$/);
    await press(page, "Enter");
    await settled(page);
    expect(await holder(page)).toBe("last quarter");
    await press(page, "Escape");

    await goTo(page, /^standard_rate, /, "ArrowRight");
    await tabTo(page, /: less$/);
    // Down to the least: the button that does nothing more keeps the keyboard.
    for (let step = 0; step < 11; step++) await press(page, "Enter");
    await expect
      .poll(() => cell(page, "standard_rate").getByRole("spinbutton").inputValue())
      .toBe("0");
    expect(await holder(page)).toMatch(/: less$/);
    await settled(page);
  });

  it("through the meeting to its actions, and saves the notebook", async () => {
    const { page } = await open();
    await press(page, "Tab");
    await tabTo(page, /^Meeting$/);
    await press(page, "Enter");
    await page.locator("meeting-page[shown]").waitFor();
    const place = page.locator("meeting-leaf footer [aria-live]");
    await press(page, "ArrowRight", "ArrowRight", "ArrowLeft");
    await expect.poll(() => place.textContent()).toMatch(/^2 of/);
    await tabTo(page, /^Next$/);
    for (let step = 0; step < 9; step++) await press(page, "Enter");
    expect(await holder(page)).toBe("Next");
    await press(page, "PageUp");
    await tabBackTo(page, /^One finding a page$/);
    await press(page, "b");
    expect(await holder(page)).toMatch(/^A black page/);
    await press(page, "b", "End");
    await page.locator("meeting-actions[shown]").waitFor();

    await tabTo(page, /^What is to be done$/);
    await type(page, "Count the breaks");
    await tabTo(page, /^By whom/);
    await type(page, "audit lead");
    await press(page, "Enter");
    await page.getByText("Count the breaks; audit lead").waitFor();
    await held(page);
    await tabBackTo(page, /^Change the action/);
    await press(page, "Enter");
    expect(await holder(page)).toBe("The action as it is to read");
    await press(page, "End");
    await type(page, " again");
    await press(page, "Enter");
    await page.getByText("audit lead again").waitFor();
    await held(page);

    await tabBackTo(page, /^Sheet$/);
    await press(page, "Enter");
    await tabTo(page, /^Save the notebook$/);
    expect(await saved(page)).toMatch(/^- [\d-]+: Count the breaks; audit lead again$/m);
  });

  it("renames the notebook, and opens the rows behind a number among the cases", async () => {
    const { page } = await open();
    await press(page, "Tab");
    await tabTo(page, /^Change$/);
    await press(page, "Enter");
    expect(await holder(page)).toBe("Title of the notebook");
    await type(page, "Saltmarsh, three years");
    await press(page, "Enter");
    await page.getByRole("heading", { name: "Saltmarsh, three years" }).waitFor();
    await held(page);
    await tabTo(page, /^failure_means, /);
    await walkTo(page, "how_often");
    await press(page, "Tab");
    const said = await sentence(page, "how_often");
    expect(said).toContain((await holder(page)) ?? "?");
    await press(page, "Enter");
    await page.locator("eyes-behind tbody tr").first().waitFor();
    await held(page);
    await tabTo(page, /^Open in Cases$/);
    await press(page, "Enter");
    await page.locator("case-grid [role=rowheader]").first().waitFor();
    await held(page);
  });

  it.each([
    ["enlarged to 200%", 720, 450],
    ["of a telephone", 390, 844],
  ])("keeps what has the keyboard in sight in a window %s", async (_size, width, height) => {
    const { page } = await open({ width, height });
    await press(page, "Tab");
    await tabTo(page, /^failure_means, /);
    await walkTo(page, "how_often");
    await tabTo(page, /^(Remove this cell|Open the desk)$/);
    await tabBackTo(page, /^Meeting$/);
    await press(page, "Enter");
    await page.locator("meeting-page[shown] answer-chart svg").waitFor();
    await press(page, "PageDown", "PageDown");
    await tabTo(page, /^Next$/);
    await tabBackTo(page, /^Meeting$/);
  });
});
