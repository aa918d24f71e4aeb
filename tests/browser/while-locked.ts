import { linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const betweenTries = 100;

/** Works while no other process does so under the same lock; a lock whose holder ended is void. */
export async function whileLocked(lock: string, work: () => void | Promise<void>): Promise<void> {
  mkdirSync(dirname(lock), { recursive: true });
  while (!taken(lock)) {
    if (isVoid(lock)) rmSync(lock, { force: true });
    else await pause(betweenTries);
  }
  try {
    await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

/** Linking fails where the lock is there, and puts the number of this process there whole. */
function taken(lock: string): boolean {
  const own = `${lock}.${process.pid}`;
  writeFileSync(own, String(process.pid));
  try {
    linkSync(own, lock);
    return true;
  } catch (error) {
    if (codeOf(error) !== "EEXIST") throw error;
    return false;
  } finally {
    rmSync(own);
  }
}

function isVoid(lock: string): boolean {
  try {
    process.kill(Number(readFileSync(lock, "utf8")), 0);
    return false;
  } catch (error) {
    // Ended meanwhile, or let go of: either way it is tried again.
    return codeOf(error) === "ESRCH";
  }
}

function codeOf(error: unknown): string | undefined {
  return (error as NodeJS.ErrnoException).code;
}
