import { describe, expect, it } from "vitest";
import { type ActionChange, changeAction } from "../../src/notebook/change-action.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { writeNotebook } from "../../src/notebook/write-notebook.ts";

const text =
  "- one\n\n## Actions agreed\n\nBefore summer:\n\n- one\n  and more\n- two\n- two\n\n## Then\n\n- one\n";

function changed(change: ActionChange): string {
  const edit = changeAction(readNotebook(text).notebook, change);
  if (!edit.ok) throw new Error(edit.problems[0]?.message);
  return writeNotebook(edit.notebook);
}

describe("an action agreed", () => {
  it("is rewritten where it stands under the heading, and nothing else", () => {
    expect(changed({ from: "one\n  and more", to: "other\nwords" })).toBe(
      text.replace("- one\n  and more\n", "- other words\n"),
    );
    expect(changed({ from: "two", to: "three" })).toBe(text.replace("- two\n", "- three\n"));
  });

  it("is taken out with all its lines", () => {
    expect(changed({ from: "one\n  and more" })).toBe(text.replace("- one\n  and more\n", ""));
  });

  it.each([{ from: "one" }, { from: "two", to: " " }])("is left where %o fits none", (change) => {
    const edit = changeAction(readNotebook(text).notebook, change);
    expect(edit.ok ? [] : edit.problems.map(({ code }) => code)).toEqual(["no-such-action"]);
  });
});
