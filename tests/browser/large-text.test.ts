import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { cutOff } from "./cut-off.ts";
import { throughEveryPart } from "./every-part.ts";
import { cell } from "./opened-page.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** The window of a laptop and of a tablet enlarged to 200%, and a telephone's. */
const zoomed = [
  ["1440 by 900 at 200%", 720, 450],
  ["1024 by 768 at 200%", 512, 384],
  ["1280 by 1024 at 400%", 320, 256],
] as const;

/** What is cut off on every leaf and in every dialog, each with where it is. */
async function everywhere(page: Page): Promise<readonly string[]> {
  const found: string[] = [];
  await throughEveryPart(page, async (where) => {
    found.push(...(await cutOff(page)).map((what) => `${where}: ${what}`));
  });
  return found;
}

describe("the check of what is cut off", () => {
  it("finds what scrolls, is cut, spills out or lies over another", async () => {
    const { page } = await open();
    await page.evaluate(() => {
      document.body.innerHTML = `
        <div style="width: 80px; overflow: auto; white-space: nowrap">a line that scrolls</div>
        <div style="width: 80px; overflow: hidden; white-space: nowrap">a line that is cut</div>
        <div style="height: 20px; overflow: hidden">a line<br />and a second</div>
        <button style="width: 50px; white-space: nowrap">a button that spills out</button>
        <p>one line</p><p style="margin-top: -30px">over another</p>
        <p style="white-space: nowrap; margin-left: 95vw">a line out of sight</p>`;
    });
    const found = (await cutOff(page)).join("\n");
    expect(found).toMatch(/a line that scrolls” scrolls sideways/);
    expect(found).toMatch(/a line that is cut” is cut at its side/);
    expect(found).toMatch(/a lineand a second” is cut at its foot/);
    expect(found).toMatch(/a button that spills out” spills out/);
    expect(found).toMatch(/“one line” lies over “over another”/);
    expect(found).toMatch(/“a line out of sight” is out of sight/);
  });
});

describe("nothing is cut off, lies over another or has to be scrolled to the side", () => {
  it.each(zoomed)("in a window of %s", async (_size, width, height) => {
    const { page } = await open({ width, height });
    expect(await everywhere(page)).toEqual([]);
  });

  it("where the browser sets text at twice the size", async () => {
    const { page } = await open();
    const protocol = await page.context().newCDPSession(page);
    await protocol.send("Page.setFontSizes", { fontSizes: { standard: 32, fixed: 26 } });
    await page.reload();
    await cell(page, "how_often").locator("answer-sentence").waitFor();
    const body = await page.evaluate(() => getComputedStyle(document.body).fontSize);
    expect(body).toBe("28px");
    expect(await everywhere(page)).toEqual([]);
  });
});
