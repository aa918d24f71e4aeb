/**
 * Writes the fourth to the ninth table of real coverage beside this file, as JSON and in words; with names
 * of tables behind it, those alone.
 *
 * To run it, from the root of the project (in one process, about half an hour for all):
 *   npx rolldown tests/references/real-coverage/write-coverage-tables.ts --platform node --format esm \
 *     --file out/write-coverage-tables.mjs && node out/write-coverage-tables.mjs counted-coverage
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { CoverageTable } from "./coverage-table.ts";
import { coverageTables } from "./coverage-tables.ts";
import { inWords } from "./table-in-words.ts";

const folder = join("tests", "references", "real-coverage");
const asked = process.argv.slice(2);

for (const table of coverageTables) {
  if (asked.length > 0 && !asked.includes(table.name)) continue;
  const { settings } = table;
  const cells = table.at.map((at) => ({ ...at, ...inOrder(table, table.cell(at)) }));
  const json = JSON.stringify({ settings, cells }, null, 1);
  writeFileSync(join(folder, `${table.name}.json`), `${json}\n`);
  writeFileSync(join(folder, `${table.name}.md`), inWords(table, cells));
}

function inOrder({ columns }: CoverageTable, shares: Record<string, number | null>) {
  return Object.fromEntries(Object.keys(columns).map((name) => [name, shares[name] ?? null]));
}
