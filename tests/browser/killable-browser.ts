import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { type BrowserContext, chromium } from "playwright-core";
import { browserToRun } from "./open-browser.ts";

/** A browser with a profile on the disk, and a way to end all of it at once. */
export async function openKillable(
  profile: string,
): Promise<{ readonly context: BrowserContext; readonly kill: () => Promise<void> }> {
  const { executablePath, args } = await browserToRun();
  const own = [`--user-data-dir=${profile}`, "--remote-debugging-port=0", "about:blank"];
  // A group of its own: the processes of the browser end together.
  const browser = spawn(executablePath, [...args, ...own], {
    detached: true,
    stdio: ["ignore", "ignore", "pipe"],
  });
  const connected = await chromium.connectOverCDP(await addressOf(browser));
  const [context] = connected.contexts();
  if (context === undefined) throw new Error("the browser has no window");
  const kill = async () => {
    const ended = once(browser, "exit");
    if (browser.pid !== undefined) process.kill(-browser.pid, "SIGKILL");
    await ended;
  };
  return { context, kill };
}

/** What the browser prints once it can be spoken to. */
function addressOf(browser: ChildProcess): Promise<string> {
  return new Promise((done, fail) => {
    let printed = "";
    browser.once("exit", () => fail(new Error(`the browser ended: ${printed}`)));
    browser.stderr?.on("data", (part: Buffer) => {
      printed += part.toString();
      const address = /DevTools listening on (ws:\S+)/.exec(printed)?.[1];
      if (address !== undefined) done(address);
    });
  });
}
