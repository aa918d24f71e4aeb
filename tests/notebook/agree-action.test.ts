import { describe, expect, it } from "vitest";
import { actionsOf, agreeAction } from "../../src/notebook/agree-action.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";

function agreed(text: string, ...actions: readonly string[]): string {
  const notebook = actions.reduce((before, action) => {
    const edit = agreeAction(before, action);
    if (!edit.ok) throw new Error(edit.problems[0]?.message);
    return edit.notebook;
  }, readNotebook(text).notebook);
  return writeNotebook(notebook);
}

describe("an action agreed", () => {
  it("stands under a heading of its own at the end, the next one below it", () => {
    expect(agreed("Words.\n\n    a = 1\n", "look again", "ask  B\nto read")).toBe(
      "Words.\n\n    a = 1\n\n## Actions agreed\n\n- look again\n- ask B to read\n",
    );
  });

  it("goes behind what stands under the heading already, before the next heading", () => {
    const text = "# Actions agreed\n\nBefore summer:\n\n- one\n# Then\n\n    a = 1\n";
    expect(agreed(text, "two")).toBe(text.replace("- one\n", "- one\n- two\n"));
    expect(agreed("# Actions agreed\n# Then\n", "one")).toBe(
      "# Actions agreed\n\n- one\n\n# Then\n",
    );
  });

  it("can be read back", () => {
    const { notebook } = readNotebook(agreed("", "one", "two # not a heading", "a = 1"));
    expect(actionsOf(notebook)).toEqual(["one", "two # not a heading", "a = 1"]);
  });

  it("is refused where nothing is said, and where it would be lost in a fence", () => {
    expect(agreeAction(readNotebook("").notebook, " \n ").ok).toBe(false);
    expect(agreeAction(readNotebook("```\nnever closed\n").notebook, "one").ok).toBe(false);
  });
});
