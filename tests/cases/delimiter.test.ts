import { expect, test } from "vitest";
import { delimiterOf } from "../../src/cases/delimiter.ts";

test.each([
  ["commas", "a,b,c\n1,2,3\n", ","],
  ["semicolons", "a;b;c\n1;2;3\n", ";"],
  ["tabs", "a\tb\n1\t2\n", "\t"],
  ["pipes", "a|b\n1|2\n", "|"],
  ["semicolons with decimal commas", "a;b\n1,5;2,5\n2,5;3,5\n3,1;2,2\n", ";"],
  ["commas with lists in semicolons", "case,breaks\n1,HST;RH\n2,RH;RH\n", ","],
  ["commas with quoted semicolons", 'a,b\n"x;y;z","p;q;r"\n"x;y;z","p;q;r"\n', ","],
  ["semicolons under a title with commas", "Audit, 2024, all\na;b;c\n1;2;3\n4;5;6\n", ";"],
  ["one column", "case\n1\n2\n", ","],
  ["nothing", "", ","],
  ["a quote never closed", 'a;b\n"x;y\n1;2\n', ";"],
])("%s", (_, text, delimiter) => {
  expect(delimiterOf(text)).toBe(delimiter);
});
