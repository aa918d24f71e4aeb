import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { NodeSession } from "./node-session.ts";
import { cell, drop, focused, sentences, settled } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Names of the cells, row by row. */
const rows = (page: Page) =>
  page
    .locator("sheet-leaf .row")
    .evaluateAll((all) =>
      all.map((row) =>
        [...row.children].map((each) => each.getAttribute("aria-label")?.split(",")[0]),
      ),
    );

const undo = (page: Page) => page.getByRole("button", { name: "Undo", exact: true });

describe("moving a cell", () => {
  it("by keyboard keeps the keyboard on it, changes no number, and can be undone by name", async () => {
    const { page } = await open();
    const [before, said] = [await rows(page), await sentences(page)];
    await cell(page, "window").focus();
    await page.keyboard.press("Alt+ArrowLeft");
    await expect
      .poll(async () => (await rows(page))[0]?.slice(0, 2))
      .toEqual(["window", "failure_means"]);
    await expect.poll(() => focused(page)).toContain("window");
    await page.keyboard.press("Alt+ArrowDown");
    await expect
      .poll(async () => (await rows(page)).slice(0, 2))
      .toEqual([["failure_means"], ["window"]]);
    expect(await sentences(page)).toEqual(said);
    expect(await undo(page).getAttribute("title")).toBe("Undo: move window (Ctrl+Z)");
    await undo(page).click();
    await undo(page).click();
    await expect.poll(() => rows(page)).toEqual(before);
  });

  it("by pointer puts it where the line was drawn", async () => {
    const { page } = await open();
    const [from, to] = [cell(page, "window"), cell(page, "eyes")];
    await cell(page, "eyes").scrollIntoViewIfNeeded();
    const [start, end] = [await from.locator(".name").boundingBox(), await to.boundingBox()];
    await page.mouse.move(start!.x + 5, start!.y + 5);
    await page.mouse.down();
    await page.mouse.move(end!.x + end!.width - 20, end!.y + end!.height / 2, { steps: 5 });
    await page.locator("sheet-leaf .drop").waitFor();
    await page.mouse.up();
    await expect.poll(() => rows(page)).toContainEqual(["eyes", "window"]);
    expect(await page.locator("sheet-leaf .drop").count()).toBe(0);
  });

  it("by pointer is given up by Escape", async () => {
    const { page } = await open();
    const before = await rows(page);
    const [start, end] = await Promise.all(
      [cell(page, "window").locator(".name"), cell(page, "failure_means")].map((at) =>
        at.boundingBox(),
      ),
    );
    await page.mouse.move(start!.x + 5, start!.y + 5);
    await page.mouse.down();
    await page.mouse.move(end!.x + 10, end!.y + end!.height / 2, { steps: 5 });
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await page.waitForTimeout(150);
    expect(await rows(page)).toEqual(before);
  });
});

describe("undo on the sheet", () => {
  it("reaches a correction that was made among the cases", async () => {
    const { page } = await open();
    const before = await sentences(page);
    await page.getByRole("button", { name: "Cases", exact: true }).click();
    const heading = page.locator("case-grid [role=columnheader]", { hasText: "operation date" });
    const column = Number(await heading.getAttribute("aria-colindex")) - 1;
    await page.locator(`case-grid [data-place="1 ${column}"]`).click();
    await page.keyboard.press("Enter");
    const dialog = page.getByRole("dialog", { name: "Correct a value" });
    await dialog.getByLabel("Read it as").fill("");
    await dialog.getByRole("textbox", { name: "Why" }).fill("of another patient");
    await page.keyboard.press("Enter");
    await page.locator("correction-list tbody tr").waitFor();
    await page.getByRole("button", { name: "Sheet", exact: true }).click();
    await settled(page);
    expect(await sentences(page)).not.toEqual(before);
    expect(await undo(page).getAttribute("title")).toMatch(/correct/);
    await page.keyboard.press("Control+z");
    await expect.poll(() => sentences(page)).toEqual(before);
  });
});

describe("copying, adding and removing", () => {
  it("puts a copy beside the cell, with the same answer", async () => {
    const { page } = await open();
    await cell(page, "why").focus();
    await page.getByRole("button", { name: "Copy the cell" }).click();
    await cell(page, "why_2").locator("answer-sentence").waitFor();
    expect((await rows(page)).find((row) => row.includes("why_2"))).toContain("why");
    const all = await sentences(page);
    expect(all.get("why_2")).toBe(all.get("why"));
    await expect.poll(() => focused(page)).toContain("why_2");
    expect(await undo(page).getAttribute("title")).toContain("copy why");
  });

  it("adds beside the chosen cell, and takes it away again", async () => {
    const { page } = await open();
    await cell(page, "eyes").focus();
    await page.getByRole("button", { name: "Add beside" }).click();
    const dialog = page.getByRole("dialog");
    expect(await dialog.textContent()).toContain("beside eyes");
    await dialog.getByRole("button", { name: "A cell of my own" }).click();
    await expect
      .poll(async () => (await rows(page)).find((row) => row[0] === "eyes"))
      .toEqual(["eyes", "value"]);
    await page.getByRole("button", { name: "Remove this cell" }).click();
    await expect.poll(() => cell(page, "value").count()).toBe(0);
    expect(await undo(page).getAttribute("title")).toContain("remove value");
  });
});

describe("finding the way", () => {
  it("finds in workings, and walks from one to the next", async () => {
    const { page } = await open();
    await cell(page, "eyes").focus();
    await page.keyboard.press("/");
    await expect.poll(() => focused(page)).toContain("Find in names");
    await page.keyboard.type("tolerance: 2");
    const found = page.locator("sheet-guide .panel li");
    expect(await found.count()).toBe(2);
    expect(await found.first().textContent()).toMatch(/how_often\s+working/);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await expect.poll(() => cell(page, "by_risk").getAttribute("aria-current")).toBe("true");
    expect(await page.locator("sheet-guide [role=status]").textContent()).toBe("2 of 2");
    await page.keyboard.press("Escape");
    await expect.poll(() => focused(page)).toContain("by_risk");
  });

  it("jumps to a heading", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: "Contents" }).click();
    await page.getByRole("button", { name: "Is the record good enough?" }).click();
    await expect.poll(() => cell(page, "rows_and_eyes").isVisible()).toBe(true);
    const inSight = () =>
      page
        .locator("prose-block", { hasText: "Is the record good enough?" })
        .evaluate((at) => at.getBoundingClientRect().top < window.innerHeight);
    await expect.poll(inSight).toBe(true);
  });
});

describe("a table", () => {
  it("shows its size in words and its first rows", async () => {
    const { page } = await open();
    const working = 'keep(cases, technique = "scleral buckle")';
    const text = `---\nholdfast: 1\n---\n\n    buckles = ${working}\n\n    how_often = failure_rate(index_eyes(buckles))\n`;
    await drop(page, "table.md", text);
    await cell(page, "buckles").locator("answer-table tbody tr").first().waitFor();
    expect(await cell(page, "buckles").locator("tbody tr").count()).toBe(8);
    const node = new NodeSession(undefined, text);
    await node.session.sheet.settled();
    const state = node.session.sheet.state("buckles");
    if (state.status !== "current" || state.value.kind !== "thing") throw new Error("no table");
    const part = state.value.parts.get("rows");
    const count = part !== undefined && "kind" in part && part.kind === "number" ? part.number : -1;
    expect(await cell(page, "buckles").locator(".plain").textContent()).toContain(`${count} cases`);
  });
});

describe("a sheet of 200 cells", () => {
  const long = `---\nholdfast: 1\n---\n\n    eyes = index_eyes(cases)\n${Array.from(
    { length: 200 },
    (_, i) =>
      `\n    cell_${i} = attachment_curve(eyes, by: ${i % 2 === 0 ? "technique" : "lens"})\n`,
  ).join("")}`;

  it("draws the charts near the window alone, and answers a key at once", async () => {
    const { page } = await open();
    await drop(page, "long.md", long);
    await cell(page, "cell_199").waitFor({ state: "attached" });
    await settled(page);
    await cell(page, "cell_0").locator("answer-chart svg").first().waitFor();
    const drawn = await page.locator("answer-chart svg").count();
    expect(drawn).toBeGreaterThan(0);
    expect(drawn).toBeLessThan(40);
    await cell(page, "cell_0").focus();
    const milliseconds = await page.evaluate(async () => {
      const leaf = document.querySelector("holdfast-book")!.shadowRoot!.querySelector("sheet-leaf")!
        .shadowRoot!;
      const began = performance.now();
      for (let i = 0; i < 10; i++) {
        leaf.activeElement!.dispatchEvent(
          new KeyboardEvent("keydown", { key: "ArrowDown", bubbles: true, composed: true }),
        );
        await new Promise((done) => requestAnimationFrame(done));
      }
      return (performance.now() - began) / 10;
    });
    console.info(
      `a step on a sheet of 200 cells: ${milliseconds.toFixed(0)} ms, ${drawn} charts drawn`,
    );
    expect(milliseconds).toBeLessThan(250);
    await page.keyboard.press("End");
    await cell(page, "cell_199").locator("answer-chart svg").first().waitFor();
  });
});
