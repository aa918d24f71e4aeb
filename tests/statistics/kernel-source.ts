/** The compiled inner loops, made again from their source. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { main } from "assemblyscript/asc";

const folder = join("src", "statistics", "kernels", "assembly");

/**
 * Instructions of two lanes without relaxed forms, whose digits differ between machines, and a memory
 * that never grows.
 */
const options = [
  "-O3",
  "--noAssert",
  "--runtime=stub",
  "--enable=simd",
  "--initialMemory=32",
  "--maximumMemory=32",
  "--disableWarning=112",
];

/** The compiled module; throws what the compiler finds wrong. */
export async function compiledKernel(): Promise<Uint8Array> {
  let compiled: Uint8Array | undefined;
  const { error, stderr } = await main(["kernel.ts", ...options, "--outFile=kernel.wasm"], {
    readFile: (name) => {
      const file = join(folder, name.replace(/\.ts$/, ".as"));
      return existsSync(file) ? readFileSync(file, "utf8") : null;
    },
    writeFile: (_, bytes) => {
      compiled = bytes as Uint8Array;
    },
    listFiles: () => [],
  });
  if (error !== null) throw new Error(stderr.toString());
  return compiled!;
}

/** The text of the file in which the module lies. */
export function kernelFile(bytes: Uint8Array): string {
  const text = Buffer.from(bytes).toString("base64");
  return `/** The module compiled from \`assembly/\`, which a test compiles again and compares. */
export const kernelBytes =
  "${text}";
`;
}
