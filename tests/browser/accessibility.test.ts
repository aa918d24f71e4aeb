import { describe, expect, it } from "vitest";
import { findings } from "./axe-findings.ts";
import { throughEveryPart } from "./every-part.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

const sizes = [
  ["on a desk", 1440, 900],
  ["on a tablet", 1024, 768],
  ["on a telephone", 390, 844],
] as const;

describe.each(sizes)("axe-core finds nothing on any leaf or dialog %s", (_where, width, height) => {
  it.each([
    ["in a light room", false],
    ["in a darkened room", true],
  ])(
    "%s",
    async (_room, dark) => {
      const { page } = await open({ width, height });
      await page.evaluate((darkened) => {
        const detail = { act: "darken", dark: darkened };
        document.querySelector("holdfast-book")?.dispatchEvent(new CustomEvent("act", { detail }));
      }, dark);
      await page.locator(`html[data-room=${dark ? "dark" : "light"}]`).waitFor();
      const found: string[] = [];
      await throughEveryPart(page, async (where) => {
        found.push(...(await findings(page)).map((finding) => `${where}: ${finding}`));
      });
      expect(found).toEqual([]);
    },
    120_000,
  );
});
