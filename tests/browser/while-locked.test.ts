import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { whileLocked } from "./while-locked.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-lock-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("a lock between processes", () => {
  it("lets one work at a time, and is gone afterwards", async () => {
    const told: string[] = [];
    const work = (name: string) => async () => {
      told.push(`${name} begins`);
      await pause(50);
      told.push(`${name} ends`);
    };
    const lock = join(folder, "lock");
    await Promise.all(["one", "other"].map((name) => whileLocked(lock, work(name))));
    expect(told).toEqual(["one begins", "one ends", "other begins", "other ends"]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("is let go of where the work fails", async () => {
    const lock = join(folder, "lock");
    const fails = () => {
      throw new Error("no room");
    };
    await expect(whileLocked(lock, fails)).rejects.toThrow("no room");
    expect(readdirSync(folder)).toEqual([]);
  });

  it("is void once the process that held it has ended", async () => {
    const lock = join(folder, "lock");
    const ended = spawnSync(process.execPath, ["--version"]).pid;
    writeFileSync(lock, String(ended));
    let worked = false;
    await whileLocked(lock, () => {
      worked = true;
    });
    expect(worked).toBe(true);
  });
});
