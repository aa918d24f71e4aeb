import type { Problem } from "../../problem/problem.ts";
import { labels } from "../labels.ts";
import type { NotebookView } from "../protocol.ts";
import type { Host } from "./host.ts";
import type { NamedText } from "./named-text.ts";

/** Whether a file is meant as aggregates of a department: JSON, by its name or as it begins. */
export function holdsAggregates(name: string, bytes: Uint8Array): boolean {
  // A decoder leaves a mark of UTF-8 at the beginning out.
  const start = new TextDecoder().decode(bytes.subarray(0, 200)).trimStart();
  return isJsonFile(name) || /^\{\s*"/.test(start);
}

export function isJsonFile(name: string): boolean {
  return /\.json$/i.test(name);
}

/** Whether a notebook asks of departments' aggregates and of no cases. */
export function isPooled(notebook: NotebookView | undefined): boolean {
  const { restsOn = [] } = notebook ?? {};
  return restsOn.includes("departments") && !restsOn.includes("cases");
}

/** What came of opening files of aggregates, and what is to be said of it. */
export interface DepartmentsOpened {
  readonly done: boolean;
  readonly notices: readonly { readonly text: string; readonly problems: readonly Problem[] }[];
}

/** Puts a reader's files to the departments that are open. */
export async function openDepartments(
  host: Host,
  files: readonly File[],
  notebook: NotebookView | undefined,
): Promise<DepartmentsOpened> {
  const named = async (file: File) => ({
    name: file.name,
    bytes: new Uint8Array(await file.arrayBuffer()),
  });
  const request = { ask: "open departments", files: await Promise.all(files.map(named)) } as const;
  const { done, problems } = await host.ask(request);
  const isAsked = notebook?.restsOn?.includes("departments") === true;
  return {
    done,
    notices: [
      ...(problems.length > 0 ? [{ text: labels.departmentsRefused(done), problems }] : []),
      ...(done && !isAsked ? [{ text: labels.departmentsUnasked, problems: [] }] : []),
    ],
  };
}

/** The demo's departments, so that a notebook that asks of them answers at once. */
export async function openInventedDepartments(
  host: Host,
  departments: readonly NamedText[] = [],
): Promise<void> {
  if (departments.length === 0) return;
  const files = departments.map(({ name, text }) => ({
    name,
    bytes: new TextEncoder().encode(text),
  }));
  await host.ask({ ask: "open departments", files, invented: true, atStart: true });
}
