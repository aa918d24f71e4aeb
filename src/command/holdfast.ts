#!/usr/bin/env node
import { run } from "./run.ts";

process.exitCode = await run(process.argv.slice(2), {
  say: (text) => process.stdout.write(text),
  warn: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
});
