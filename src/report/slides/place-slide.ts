import { linesOnPages } from "./lines-on-pages.ts";
import type { FittedTable, Place, PlacedSlide, Slide, SlideChart } from "./slide.ts";
import { contentPlace, footPlace, mostFoot, places } from "./slide-room.ts";
import { fitTable, tableHeight, tableWidth, widthInLines } from "./table-fit.ts";
import { linesHeight, linesOf, linesWithin } from "./text-fit.ts";
import { fitTitle } from "./title-fit.ts";

export const asksPoints = 12;
export const bodyPoints = 16;
export const footPoints = 10;
const gap = 0.25;
/** A chart beside a table has at least this much of the slide, inches. */
const leastBeside = 6.6;
/** A chart above or beside a table is drawn at least so large: letters of 12 pixels become 12 points. */
const leastPixel = 1 / 72;
const besidePoints = 12;

/**
 * A slide laid out: one, or as many as it takes for everything to fit, the title carried on. A chart
 * shares its slide with its table, beside or above it, where both stay legible.
 */
export async function placeSlide(slide: Slide): Promise<PlacedSlide[]> {
  const { kept, further } = fitFoot(slide.foot);
  const height = footHeight(kept);
  const foot = kept.length === 0 ? {} : { foot: { ...footPlace(height), paragraphs: kept } };
  const room = contentPlace(height);
  const contents: readonly Partial<PlacedSlide>[] = [
    ...(slide.body === undefined ? [] : placeBody(slide.body, room)),
    ...(await placeFigures(slide, room)),
  ];
  const cautions = placeBody(further, contentPlace(0));
  const all = [...contents.map((content) => ({ ...content, ...foot })), ...cautions];
  return all.map((content, at) => ({ ...heading(slide, at), notes: slide.notes, ...content }));
}

function heading({ asks, title }: Slide, at: number): Pick<PlacedSlide, "asks" | "title"> {
  const runs = at === 0 ? title : [...title, { text: " (continued)" }];
  const fitted = { title: fitTitle(runs, places.title) };
  return asks === undefined ? fitted : { ...fitted, asks: oneLine(asks) };
}

function oneLine(text: string): string {
  const [line = "", ...rest] = linesOf(text, places.asks.width, { points: asksPoints });
  return rest.length === 0 ? text : `${line.slice(0, -2).trimEnd()}…`;
}

/** The first lines of the foot as far as there is room for them; the rest needs a slide of its own. */
function fitFoot(foot: readonly string[]): {
  readonly kept: readonly string[];
  readonly further: readonly string[];
} {
  if (footHeight(foot) <= mostFoot) return { kept: foot, further: [] };
  const more = "More stands on a slide of its own.";
  let count = foot.length - 1;
  while (count > 0 && footHeight([...foot.slice(0, count), more]) > mostFoot) count -= 1;
  return { kept: [...foot.slice(0, count), more], further: foot.slice(count) };
}

function footHeight(foot: readonly string[]): number {
  const lines = foot.flatMap((text) => linesOf(text, footPlace(0).width, { points: footPoints }));
  return linesHeight(lines.length, footPoints);
}

function placeBody(paragraphs: readonly string[], room: Place): { readonly body: Body }[] {
  const lined = paragraphs.map((text) => [linesOf(text, room.width, { points: bodyPoints })]);
  const height = (lines: number) => linesHeight(lines, bodyPoints);
  const most = linesHeight(linesWithin(room.height, bodyPoints), bodyPoints);
  return linesOnPages(lined, { room: most, height }).map((page) => ({
    body: { ...room, paragraphs: page.map(([lines = []]) => lines.join("").trimEnd()) },
  }));
}

type Body = NonNullable<PlacedSlide["body"]>;
type Figures = Pick<PlacedSlide, "picture" | "table">;

async function placeFigures({ chart, table }: Slide, room: Place): Promise<Figures[]> {
  const tables = table === undefined || table.rows.length === 0 ? [] : fitTable(table, room);
  if (chart === undefined) return tables.map((each) => ({ table: tablePlace(each, room) }));
  const shared = table === undefined ? undefined : sharedRooms({ chart, table }, room);
  if (shared === undefined) {
    const alone = { picture: await drawn(chart, room) };
    return [alone, ...tables.map((each) => ({ table: tablePlace(each, room) }))];
  }
  return [{ picture: await drawn(chart, shared.chart), table: shared.table }];
}

interface SharedRooms {
  readonly chart: Place;
  readonly table: NonNullable<Figures["table"]>;
}

type Both = { readonly chart: SlideChart; readonly table: NonNullable<Slide["table"]> };

function sharedRooms(both: Both, room: Place): SharedRooms | undefined {
  return besideTable(both, room) ?? aboveTable(both, room);
}

function aboveTable({ chart, table }: Both, room: Place): SharedRooms | undefined {
  const [fitted, ...rest] = fitTable(table, room);
  if (fitted === undefined || rest.length > 0) return undefined;
  const height = room.height - tableHeight(fitted) - gap;
  const above = { ...room, height };
  if (height <= 0) return undefined;
  const size = chart.measure(above);
  if (size.pixel < leastPixel) return undefined;
  const y = room.y + size.height + gap;
  return { chart: above, table: tablePlace(fitted, { ...room, y }) };
}

function besideTable({ chart, table }: Both, room: Place): SharedRooms | undefined {
  const width = widthInLines(table, besidePoints) + 0.01 * table.columns.length;
  const left = room.width - gap - width;
  if (left < leastBeside) return undefined;
  const [fitted, ...rest] = fitTable(table, { width, height: room.height });
  if (fitted === undefined || rest.length > 0) return undefined;
  const beside = { ...room, width: left };
  if (chart.measure(beside).pixel < leastPixel) return undefined;
  const x = room.x + room.width - tableWidth(fitted);
  return { chart: beside, table: tablePlace(fitted, { ...room, x }) };
}

function tablePlace(table: FittedTable, { x, y }: Place): NonNullable<Figures["table"]> {
  return { x, y, width: tableWidth(table), height: tableHeight(table), table };
}

async function drawn(chart: SlideChart, room: Place): Promise<NonNullable<Figures["picture"]>> {
  const { width, height } = chart.measure(room);
  return { x: room.x, y: room.y, width, height, picture: await chart.draw(room) };
}
