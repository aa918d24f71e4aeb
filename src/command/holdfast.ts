#!/usr/bin/env node
import { dayFromParts } from "../cases/calendar-day.ts";
import { run } from "./run.ts";

process.exitCode = await run(process.argv.slice(2), {
  say: (text) => process.stdout.write(text),
  warn: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  today: localDay(new Date()),
  whenStopped: () => new Promise((resolve) => process.once("SIGINT", () => resolve())),
});

/** The calendar day where the reader is: the one place that looks at a clock. */
function localDay(now: Date): number {
  return dayFromParts(now.getFullYear(), now.getMonth() + 1, now.getDate()) ?? 0;
}
