import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect } from "vitest";
import { openBrowser } from "./open-browser.ts";
import { type OpenedPage, openPage, type PageOptions } from "./opened-page.ts";

/**
 * One browser for a file of tests. Whatever a test does, the page must not complain and must ask
 * for nothing beyond itself: that is checked after each.
 */
export function withPage(): (options?: PageOptions) => Promise<OpenedPage> {
  let browser: Browser;
  let opened: OpenedPage[] = [];
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());
  afterEach(async () => {
    const pages = opened;
    opened = [];
    for (const { page, complaints, requests } of pages) {
      await page.context().close();
      expect(complaints).toEqual([]);
      expect(requests.filter((address) => !/^(data|blob):/.test(address))).toEqual([]);
    }
  });
  return async (options) => {
    const page = await openPage(browser, options);
    opened.push(page);
    return page;
  };
}
