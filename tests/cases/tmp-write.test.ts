import { writeFileSync } from "node:fs";
import { test } from "vitest";
import { catalogued, messagesOf, readBroken } from "./problem-catalogue.ts";

test("w", () => {
  for (const c of process.env.CODES!.split(" ")) {
    const m = messagesOf(readBroken(c), c);
    console.log(m || `NONE ${c} ${JSON.stringify(readBroken(c).problems)}`);
    writeFileSync(`tests/problems/cases/${c}.message`, m);
  }
  void catalogued;
});
