import type { Page } from "playwright-core";

/** Sheets of paper in millimetres (ISO 216; ANSI/ASME Y14.1), and the report's margins on them. */
export const papers = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const;
const margins = { across: 32, down: 38 } as const;
const pixelsPerMillimetre = 96 / 25.4;

/**
 * Lays a page of HTML out as its printed sheets, side by side: columns of the size of the paper
 * break by the same rules as paper does, and where things lie in them can be measured.
 */
export async function layOnPaper(page: Page, paper: keyof typeof papers): Promise<PaperSize> {
  const width = (papers[paper].width - margins.across) * pixelsPerMillimetre;
  const height = (papers[paper].height - margins.down) * pixelsPerMillimetre;
  await page.emulateMedia({ media: "print" });
  const size = `width: ${width}px; height: ${height}px`;
  const columns = `column-width: ${width}px; column-gap: ${gap}px; column-fill: auto`;
  await page.addStyleTag({
    content: `html, body { margin: 0 !important } body { ${size}; ${columns} }`,
  });
  await page.evaluate(() => document.fonts.ready);
  return { width, height, gap };
}

const gap = 60;

export interface PaperSize {
  readonly width: number;
  readonly height: number;
  readonly gap: number;
}

/** What is wrong with the breaks between the sheets, in words; and how many sheets there are. */
export interface PageBreaks {
  readonly sheets: number;
  readonly faults: readonly string[];
}

/**
 * Faults: a chart, row, heading, sentence or caution in two; a heading at the foot of a sheet, what
 * it heads on the next; one row of a table alone; anything beyond the edge of the sheet.
 */
export function pageBreaks(page: Page, paper: PaperSize): Promise<PageBreaks> {
  return page.evaluate(({ width, height, gap: between }) => {
    const whole = "figure, svg, tr, h1, h2, h3, .asks, .sentence, .cautions li, .standing";
    const heads = "h1, h2, h3, .asks, dt";
    const bounded = "td, th, svg, p, li, dd";
    const all = (selector: string) => [...document.querySelectorAll(selector)];
    const boxes = (element: Element) =>
      [...element.getClientRects()].filter((box) => box.width > 0 && box.height > 0);
    const sheetOf = (box: DOMRect) => Math.floor((box.left + between / 2) / (width + between));
    const sheetsOf = (element: Element) => [...new Set(boxes(element).map(sheetOf))];
    const words = (what: string, element: Element) =>
      `${what}: ${element.localName} "${(element.textContent ?? "").trim().slice(0, 50)}"`;
    const split = all(whole).filter((element) => sheetsOf(element).length > 1);
    const stranded = all(heads).filter((element) => {
      const next = element.nextElementSibling;
      const [after] = next === null ? [] : sheetsOf(next);
      const at = sheetsOf(element).at(-1);
      return at !== undefined && after !== undefined && at !== after;
    });
    const beyond = all(bounded).filter((element) =>
      boxes(element).some((box) => {
        const right = sheetOf(box) * (width + between) + width;
        return box.right > right + 1 || box.bottom > height + 1;
      }),
    );
    const lone = all("table").filter((table) => {
      const rows = [...table.querySelectorAll("tbody tr")].map((row) => sheetsOf(row)[0]);
      const onSheet = (sheet: number | undefined) => rows.filter((each) => each === sheet).length;
      return new Set(rows).size > 1 && rows.some((sheet) => onSheet(sheet) < 2);
    });
    return {
      sheets: Math.max(...all("body > *, section").flatMap(sheetsOf)) + 1,
      faults: [
        ...split.map((element) => words("in two", element)),
        ...stranded.map((element) => words("heading at the foot", element)),
        ...beyond.map((element) => words("beyond the edge", element)),
        ...lone.map((element) => words("a row alone", element)),
      ],
    };
  }, paper);
}
