import { fileURLToPath } from "node:url";

/** A path of the project, from its root. */
export function projectPath(path: string): string {
  return fileURLToPath(new URL(`../../${path}`, import.meta.url));
}

/** The one file that ships. */
export const builtPage = projectPath("dist/page/index.html");
