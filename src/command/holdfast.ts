#!/usr/bin/env node
import { dayFromParts } from "../cases/calendar-day.ts";
import { run } from "./run.ts";

// A signal ends the run by way of `exit`, where what should not outlive it is put away.
const interrupted = () => process.exit(130);
const terminated = () => process.exit(143);
process.once("SIGINT", interrupted);
process.once("SIGHUP", () => process.exit(129));
process.once("SIGTERM", terminated);

// A reader that has seen enough, such as `| head`, ends the run without a word.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

process.exitCode = await run(process.argv.slice(2), {
  say: (text) => process.stdout.write(text),
  warn: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  today: localDay(new Date()),
  whenStopped: () => {
    process.off("SIGINT", interrupted).off("SIGTERM", terminated);
    return new Promise((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => resolve());
    });
  },
});

/** The calendar day where the reader is: the one place that looks at a clock. */
function localDay(now: Date): number {
  return dayFromParts(now.getFullYear(), now.getMonth() + 1, now.getDate()) ?? 0;
}
