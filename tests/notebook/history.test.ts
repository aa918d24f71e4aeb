import { describe, expect, test } from "vitest";
import { History } from "../../src/notebook/history.ts";

describe("history", () => {
  test("undoes and redoes by name, back to the beginning", () => {
    const history = new History(0);
    history.act("one", 1);
    history.act("two", 2);
    expect([history.state, history.undoName, history.redoName]).toEqual([2, "two", undefined]);
    expect(history.undo()).toBe(true);
    expect([history.state, history.undoName, history.redoName]).toEqual([1, "one", "two"]);
    expect(history.undo()).toBe(true);
    expect(history.undo()).toBe(false);
    expect([history.state, history.undoName, history.redoName]).toEqual([0, undefined, "one"]);
    expect(history.redo()).toBe(true);
    expect(history.state).toBe(1);
  });

  test("a new act ends what could be redone", () => {
    const history = new History("a");
    history.act("b", "b");
    history.undo();
    history.act("c", "c");
    expect(history.redo()).toBe(false);
    expect(history.state).toBe("c");
  });

  test("lets the oldest acts go", () => {
    const history = new History(0, 3);
    for (let state = 1; state <= 10; state++) history.act(`to ${state}`, state);
    while (history.undo());
    expect(history.state).toBe(7);
  });
});
