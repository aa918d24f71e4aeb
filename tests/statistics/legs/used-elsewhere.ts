import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const source = fileURLToPath(new URL("../../../src/", import.meta.url));

/** The names that files outside the room import from it, types aside. */
export function usedElsewhere(): ReadonlySet<string> {
  const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter(
    (path) => path.endsWith(".ts") && !path.startsWith("statistics"),
  );
  const imports = /import \{([^}]*)\} from "[./]+\/statistics\/[\w-]+\.ts"/g;
  return new Set(
    files.flatMap((path) =>
      Array.from(readFileSync(join(source, path), "utf8").matchAll(imports), ([, list]) =>
        list!.split(",").map((part) => part.trim().replace(/ as \w+$/, "")),
      ).flat(),
    ),
  );
}

/** Used elsewhere, but no statistics: look-ups, arithmetic and algebra that the rest is made of. */
export const plumbing: readonly string[] = [
  "cellsOf",
  "chiSquareUpperTail",
  "findRoot",
  "gather",
  "hasEmptyGroup",
  "inPieces",
  "keptOver",
  "normalDeviate",
  "normalTwoSided",
  "quadraticForm",
  "rowNumbers",
  "stepAt",
];
