import { expect, test } from "vitest";
import { readNotebook } from "../../src/notebook/read-notebook.ts";

const read = (written: string) =>
  readNotebook(`---\nholdfast: 1\n${written}\n---\n`, "notebook.md");

test.each([
  ["smallest_count: 10", 10],
  ["smallest_count: 2", 2],
  ["smallest_count:", undefined],
  ["title: Repairs", undefined],
])("%j", (written, smallest) => {
  const { notebook, problems } = read(written);
  expect(problems).toEqual([]);
  expect(notebook.front.smallestCount).toBe(smallest);
});

test.each(["1", "0", "-5", "5.5", "few", "[5]", "10000"])("%s is no smallest count", (value) => {
  const { notebook, problems } = read(`smallest_count: ${value}`);
  expect(notebook.front.smallestCount).toBeUndefined();
  expect(problems).toMatchObject([
    {
      code: "wrong-kind",
      severity: "stop",
      place: { line: 3 },
      expected: "smallest_count: a whole number of 2 or more, such as 5",
    },
  ]);
});
