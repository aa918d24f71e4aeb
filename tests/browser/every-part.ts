import type { Page } from "playwright-core";
import { cell } from "./opened-page.ts";

type Look = (where: string) => Promise<void>;

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

/** Goes through every leaf and dialog of the page as it opens, and has a look at each. */
export async function throughEveryPart(page: Page, look: Look): Promise<void> {
  await look("first open");
  await throughSheet(page, look);
  for (const name of ["Ask another question", "Notebooks", "Save the report", "Departments"]) {
    await button(page, name).click();
    await page.getByRole("dialog").waitFor();
    if (name === "Save the report") await page.getByText("Readers outside it").click();
    await look(name);
    await page.keyboard.press("Escape");
  }
  await button(page, "Cases").click();
  await page.locator("[role=rowheader]").first().waitFor();
  await look("cases");
  await page.locator("cases-leaf h2").last().scrollIntoViewIfNeeded();
  await look("cases, at the foot");
  await throughMeeting(page, look);
}

async function throughSheet(page: Page, look: Look): Promise<void> {
  await cell(page, "how_often").locator("answer-sentence button").first().click();
  await page.locator("eyes-behind tbody tr").first().waitFor();
  await page.locator(".cm-content").waitFor();
  await look("desk");
  await button(page, "Fold the desk away").click();
  for (const name of ["how_often", "when", "why", "rows_and_eyes"]) {
    await cell(page, name).scrollIntoViewIfNeeded();
    await look(name);
  }
  await cell(page, "when").locator("summary").click();
  await cell(page, "when").locator("answer-chart .ground").focus();
  await page.keyboard.press("ArrowRight");
  await look("a chart that is walked along");
  await page.getByLabel("Find in names, workings and answers").fill("technique");
  await look("find");
  await page.getByLabel("Find in names, workings and answers").fill("");
  await button(page, "Contents").click();
  await look("contents");
  await button(page, "Contents").click();
}

async function throughMeeting(page: Page, look: Look): Promise<void> {
  await button(page, "Meeting").click();
  await page.locator("meeting-page[shown] answer-chart svg").waitFor();
  await look("meeting");
  await page.keyboard.press("PageDown");
  await page.keyboard.press("PageDown");
  await page.locator("meeting-page[shown] answer-chart svg").waitFor();
  await page.locator("meeting-page[shown] .keep").focus();
  await look("meeting, a curve");
  await page.locator("meeting-page[shown] summary").last().click();
  await look("meeting, cautions");
  await button(page, "Pages").click();
  await look("meeting, pages");
  await page.keyboard.press("End");
  await page.locator("meeting-actions[shown]").waitFor();
  await page.getByLabel("What is to be done").fill("count the breaks");
  await button(page, "Agree").click();
  await page.getByRole("button", { name: /^Change the action/ }).click();
  await button(page, "Notes").click();
  await look("meeting, an action that is rewritten");
  await page.locator("meeting-leaf .meeting").press("b");
  await look("meeting, a black page");
}
