import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parse } from "../../src/formula/parse.ts";
import type { CallNode } from "../../src/formula/tree.ts";
import { definitionsOf } from "../../src/notebook/notebook-document.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { openShipped, type Session, shippedNotebooks } from "./shipped-notebooks.ts";

/** Each choice of each setting of a notebook: what a reader can press, one press from where it is. */
const presses = shippedNotebooks.flatMap((shipped) => {
  const { notebook } = readNotebook(readFileSync(shipped.path, "utf8"));
  return definitionsOf(notebook).flatMap(({ name: cell, working }) =>
    optionsOf(working).map((option, position) => ({ shipped, cell, option, position })),
  );
});

function optionsOf(working: string): string[] {
  const { tree } = parse(working);
  if (tree?.type !== "call" || tree.word !== "choose") return [];
  const list = (tree satisfies CallNode).arguments[0]?.value;
  if (list?.type !== "list") return [];
  return list.items.map(({ span }) => working.slice(span.start, span.end));
}

describe.each(shippedNotebooks)("$name: any choice of any setting", (shipped) => {
  const ours = presses.filter((press) => press.shipped === shipped);
  let session: Session;
  beforeAll(async () => {
    session = await openShipped(shipped);
  });
  afterAll(() => session.dispose());

  test.each(ours)("$cell: $option leaves every cell with an answer", async (press) => {
    const text = session.notebookText();
    expect(session.setSetting(press.cell, press.position)).toEqual([]);
    await session.sheet.settled();
    const names = session.sheet.names();
    expect(names.filter((name) => session.sheet.state(name).status !== "current")).toEqual([]);
    if (session.notebookText() !== text) session.undo();
    await session.sheet.settled();
    expect(session.notebookText()).toBe(text);
  });

  test("has as many choices as it offers", () => {
    const offered = readFileSync(shipped.path, "utf8").match(/= choose\(/g)?.length ?? 0;
    expect(new Set(ours.map(({ cell }) => cell)).size).toBe(offered);
  });
});
