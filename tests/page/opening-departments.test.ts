import { describe, expect, it } from "vitest";
import { wordsToAsk } from "../../src/page/book/words-to-ask.ts";
import { BookKeeper } from "../../src/page/host/book-keeper.ts";
import { holdsAggregates } from "../../src/page/host/open-departments.ts";
import { labels } from "../../src/page/labels.ts";
import { wordViews } from "../../src/page/worker/word-views.ts";
import { FakeHost } from "./fake-host.ts";
import { notebookView } from "./fake-sheet.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const json = (name: string, text = '{"holdfast_aggregates": 1}') => new File([text], name);
const pooledView = { ...notebookView, restsOn: ["departments"] as const };

const demo = {
  notebook: { name: "demo.md", text: "# Demo" },
  cases: { name: "repairs.csv", text: "case,eye\n1,right\n" },
};

async function opened(more = {}) {
  const host = new FakeHost();
  const keeper = new BookKeeper(host, () => {});
  await keeper.open({ ...demo, ...more });
  return { host, keeper };
}

describe("what is meant as aggregates", () => {
  it.each([
    ["unit-n.json", "", true],
    ["UNIT.JSON", "not JSON", true],
    ["pasted cases.csv", '\uFEFF{\n  "holdfast_aggregates": 1', true],
    ["repairs.csv", "case,eye\n1,right\n", false],
    ["repairs.csv", "{case},eye\n1,right\n", false],
  ])("%s that begins with %j: %s", (name, text, is) => {
    expect(holdsAggregates(name, bytes(text))).toBe(is);
  });
});

describe("the book", () => {
  it("opens the invented departments at its beginning, before its cases", async () => {
    const departments = [{ name: "unit-n.json", text: "{}" }];
    const { host } = await opened({ departments });
    expect(host.asked.map(({ ask }) => ask)).toEqual([
      ...["words", "open notebook", "open departments", "open cases"],
    ]);
    expect(host.asked[2]).toMatchObject({ invented: true, atStart: true });
  });

  it("opens a file of aggregates beside those that are open, and several together", async () => {
    const { host, keeper } = await opened();
    host.tell({ tell: "notebook", view: pooledView });
    await keeper.take({ act: "open file", file: json("a.json") });
    await keeper.take({ act: "open departments", files: [json("b.json"), json("c.json")] });
    const asked = host.asked.filter(({ ask }) => ask === "open departments");
    expect(asked).toMatchObject([
      { files: [{ name: "a.json" }] },
      { files: [{ name: "b.json" }, { name: "c.json" }] },
    ]);
    expect(keeper.state.notices).toEqual([]);
  });

  it("says so where the notebook asks of something else than was opened", async () => {
    const { host, keeper } = await opened();
    await keeper.take({ act: "open file", file: json("a.json") });
    expect(keeper.state.notices.at(-1)?.text).toBe(labels.departmentsUnasked);
    host.tell({ tell: "notebook", view: pooledView });
    await keeper.take({ act: "open file", file: new File(["case\n7"], "mine.csv") });
    expect(keeper.state.notices.at(-1)?.text).toBe(labels.casesUnasked("mine.csv"));
  });
});

describe("questions that a notebook can ask", () => {
  const words = wordViews();
  const invented = {
    invented: true,
    departments: [],
    definition: {
      ...{ failure: "redetachment", oil: "", undecided: "", window: "6 months", days: 183 },
      eyes: "all" as const,
    },
  };
  const asked = (state: Omit<Parameters<typeof wordsToAsk>[0], "words">) =>
    wordsToAsk({ words, ...state }).map(({ name }) => name);

  it("are of cases, of departments, or of both where a reader's own are open", () => {
    const ofCases = asked({ notebook: notebookView, departments: invented });
    expect(ofCases).toContain("failure_rate");
    expect(ofCases.filter((name) => name.startsWith("pooled_"))).toEqual([]);
    const ofDepartments = asked({ notebook: pooledView, departments: invented });
    expect(ofDepartments.every((name) => name.startsWith("pooled_"))).toBe(true);
    expect(ofDepartments).toHaveLength(5);
    const own = { ...invented, invented: false };
    expect(asked({ notebook: notebookView, departments: own })).toEqual([
      ...ofCases,
      ...ofDepartments,
    ]);
  });
});
