import { describe, expect, it } from "vitest";
import type { HeldCases } from "../../src/page/cases-protocol.ts";
import type { CaseStore, KeptBytes, KeptVersion } from "../../src/page/keeping/case-store.ts";
import { CasesKeeping } from "../../src/page/keeping/cases-keeping.ts";
import { packCases } from "../../src/page/keeping/packed-cases.ts";
import { PassphraseKey } from "../../src/page/keeping/passphrase-key.ts";
import { FakeHost } from "./fake-host.ts";

const held: HeldCases = {
  files: [{ name: "own.csv", bytes: new TextEncoder().encode("case,eye\n1,R\n") }],
  corrections: "row,field\n",
};

function kept(found?: KeptBytes): CaseStore {
  let now: KeptVersion | undefined = found && { version: 3, kept: found };
  return {
    read: async () => now,
    write: async (bytes, over) => {
      if ((now?.version ?? 0) !== over) return "conflict";
      now = { version: over + 1, kept: bytes };
      return { version: over + 1 };
    },
    erase: async () => {
      now = undefined;
      return true;
    },
  };
}

function keepingOver(store: CaseStore) {
  const host = new FakeHost();
  return { host, keeping: new CasesKeeping(host, store, () => {}) };
}

describe("what is kept on this device", () => {
  it("is opened at once where it lies in the open", async () => {
    const { host, keeping } = keepingOver(kept({ open: packCases(held) }));
    expect(await keeping.begin()).toBe("on");
    expect(host.asked).toEqual([{ ask: "open kept cases", kept: held, atStart: true }]);
  });

  it("is nothing at first", async () => {
    const { host, keeping } = keepingOver(kept());
    expect(await keeping.begin()).toBe("off");
    expect(host.asked).toEqual([]);
  });

  it("waits for its passphrase", async () => {
    const key = await PassphraseKey.fresh("four lamps over water");
    const { host, keeping } = keepingOver(kept({ sealed: await key.seal(packCases(held)) }));
    expect(await keeping.begin()).toBe("locked");
    expect(await keeping.unlock("five lamps over water")).toBe(false);
    expect([keeping.state, host.asked]).toEqual(["locked", []]);
    expect(await keeping.unlock("four lamps over water")).toBe(true);
    expect([keeping.state, keeping.isSealed]).toEqual(["on", true]);
  });

  it("stays where it is damaged, until it is erased", async () => {
    const store = kept({ open: packCases(held).slice(0, 9) });
    const { host, keeping } = keepingOver(store);
    expect(await keeping.begin()).toBe("unreadable");
    await keeping.casesChanged();
    expect(host.asked).toEqual([]);
    expect((await store.read())?.version).toBe(3);
    await keeping.erase();
    expect([keeping.state, await store.read()]).toEqual(["off", undefined]);
  });
});
