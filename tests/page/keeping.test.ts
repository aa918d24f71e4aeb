import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { HeldCases } from "../../src/page/cases-protocol.ts";
import { packCases, unpackCases } from "../../src/page/keeping/packed-cases.ts";
import { keyRounds, PassphraseKey } from "../../src/page/keeping/passphrase-key.ts";

const text = (written: string) => new TextEncoder().encode(written);

describe("packed cases", () => {
  const held: HeldCases = {
    files: [
      { name: "é.csv", bytes: text("case,eye\n1,R\n") },
      { name: "visits.csv", bytes: new Uint8Array(), as: "follow-up" },
    ],
    corrections: "row,field\n",
    secret: new Uint8Array([1, 2, 3]),
  };

  it("unpack to what was packed, with a key and without", () => {
    expect(unpackCases(packCases(held))).toEqual(held);
    const { secret: _, ...without } = held;
    expect(unpackCases(packCases(without))).toEqual(without);
  });

  it("that are cut short are refused", () => {
    expect(() => unpackCases(packCases(held).slice(0, -1))).toThrow(RangeError);
  });
});

describe("a key from a passphrase", () => {
  it("seals so that another program opens it by the published algorithms", async () => {
    const key = await PassphraseKey.fresh("four lamps over water");
    const { salt, rounds, nonce, bytes } = await key.seal(text("case 0001"));
    expect(rounds).toBe(keyRounds);
    expect(rounds).toBeGreaterThanOrEqual(600_000);
    const derived = pbkdf2Sync("four lamps over water", salt, rounds, 32, "sha256");
    const decipher = createDecipheriv("aes-256-gcm", derived, nonce);
    decipher.setAuthTag(bytes.slice(-16));
    const opened = Buffer.concat([decipher.update(bytes.slice(0, -16)), decipher.final()]);
    expect(opened.toString("utf8")).toBe("case 0001");
  });

  it("uses a salt for each key, and a nonce for each sealing", async () => {
    const [one, other] = [
      await PassphraseKey.fresh("same words"),
      await PassphraseKey.fresh("same words"),
    ];
    const [first, second] = [await one.seal(text("a")), await one.seal(text("a"))];
    expect(first.nonce).not.toEqual(second.nonce);
    expect(first.salt).not.toEqual((await other.seal(text("a"))).salt);
  });

  it("opens nothing by another passphrase, nor what was changed", async () => {
    const key = await PassphraseKey.fresh("cafe\u0301 by the sea");
    const sealed = await key.seal(text("case 0001"));
    const same = await PassphraseKey.of("caf\u00e9 by the sea", sealed);
    expect(await same.open(sealed)).toEqual(text("case 0001"));
    const other = await PassphraseKey.of("Café by the sea", sealed);
    expect(await other.open(sealed)).toBeUndefined();
    const changed = {
      ...sealed,
      bytes: sealed.bytes.map((byte, i) => (i === 0 ? byte ^ 1 : byte)),
    };
    expect(await same.open(changed)).toBeUndefined();
  });
});
