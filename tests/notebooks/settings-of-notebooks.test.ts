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
    const problems = session.setSetting(press.cell, press.position);
    await session.sheet.settled();
    const codes = faultCodes(session);
    if (session.notebookText() !== text) session.undo();
    await session.sheet.settled();
    expect(problems).toEqual([]);
    expect(codes.filter((code) => !expectedUnder(press.option).includes(code))).toEqual([]);
    expect(session.notebookText()).toBe(text);
    expect(faultCodes(session)).toEqual([]);
  });

  test("has as many choices as it offers", () => {
    const offered = readFileSync(shipped.path, "utf8").match(/= choose\(/g)?.length ?? 0;
    expect(new Set(ours.map(({ cell }) => cell)).size).toBe(offered);
  });
});

/** A failure read at the last visit has no day to draw a curve by, and is rare. */
function expectedUnder(option: string): string[] {
  const isReadOnce = /^"(not attached without oil|detached at last visit)"$/.test(option);
  return isReadOnce ? ["no-times", "too-few-failures"] : [];
}

/** What is wrong with each cell that has no answer. */
function faultCodes(session: Session): string[] {
  return session.sheet.names().flatMap((name) => {
    const state = session.sheet.state(name);
    if (state.status === "current") return [];
    return state.status === "at fault" ? state.problems.map(({ code }) => code) : [state.status];
  });
}
