import type { Value } from "../../formula/value.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import {
  type DepartmentRead,
  departmentsTogether,
  readDepartment,
} from "../../report/read-departments.ts";
import type { PooledFile } from "../../report/report-input.ts";
import type { DepartmentsRequest, DepartmentsView, NamedBytes } from "../departments-protocol.ts";
import type { Request } from "../protocol.ts";
import { aggregatesTold } from "./aggregates-told.ts";
import { fileDigest } from "./file-digest.ts";

/** A department whose aggregates are open. */
interface Held extends DepartmentRead {
  readonly bytes: Uint8Array;
  readonly invented: boolean;
}

type Opening = Extract<DepartmentsRequest, { ask: "open departments" }>;

const nobody: readonly Held[] = [];

/** The departments whose aggregates are open: what the sheet is given of them can be undone. */
export class OpenDepartments {
  readonly #session: NotebookSession<SettingChange>;
  /** By what the sheet was given: the files that it comes from. */
  readonly #behind = new WeakMap<Value, readonly Held[]>();

  constructor(session: NotebookSession<SettingChange>) {
    this.#session = session;
  }

  /** Does what a request asks of them; undefined where it asks for something else. */
  change(request: Request): readonly Problem[] | undefined {
    if (request.ask === "open departments") return this.#open(request);
    if (request.ask === "remove department") return this.#remove(request.unit);
    return undefined;
  }

  /** As the page shows them; null where none are open. */
  get view(): DepartmentsView | null {
    const held = this.#held;
    const [first] = held;
    if (first === undefined) return null;
    return {
      invented: held.some(({ invented }) => invented),
      definition: first.aggregates.definition,
      departments: held.map(({ file, aggregates }) => ({
        ...aggregatesTold(aggregates),
        ...{ unit: aggregates.unit, file: file.name },
        ...(aggregates.period !== undefined && { period: aggregates.period }),
      })),
    };
  }

  /** The files for a report, each with its digest; none where no departments are open. */
  files(): Promise<PooledFile[]> {
    const withDigest = async ({ file, bytes }: Held) => ({
      ...file,
      sha256: await fileDigest(bytes),
    });
    return Promise.all(this.#held.map(withDigest));
  }

  get #held(): readonly Held[] {
    const value = this.#session.given("departments")?.value;
    return (value && this.#behind.get(value)) ?? nobody;
  }

  /** Each file by itself: one that is refused takes nothing from those before and behind it. */
  #open({ files, invented: isDemo }: Opening): readonly Problem[] {
    const invented = isDemo === true;
    let held = this.#held.filter((each) => each.invented === invented);
    // A reader in a hurry has opened theirs already.
    if (invented && held.length < this.#held.length) return [];
    const opened: string[] = [];
    const problems: Problem[] = [];
    for (const file of files) {
      const added = withFile(held, file, invented);
      if ("problems" in added) problems.push(...added.problems);
      else {
        held = added.held;
        opened.push(file.name);
      }
    }
    if (opened.length > 0) this.#give(`open ${opened.join(", ")}`, held);
    return problems;
  }

  #remove(unit: string): readonly Problem[] {
    const rest = this.#held.filter(({ aggregates }) => aggregates.unit !== unit);
    this.#give(`remove ${unit}`, rest);
    return [];
  }

  #give(name: string, held: readonly Held[]): void {
    const together = held.length === 0 ? undefined : departmentsTogether(held);
    if (together === undefined || "problems" in together) {
      this.#session.give(name, "departments", undefined);
      return;
    }
    const { value } = together;
    this.#behind.set(value, held);
    this.#session.give(name, "departments", { value, because: "other departments are open" });
  }
}

/** Those before with a further file, or what is wrong with it. */
function withFile(
  held: readonly Held[],
  { name, bytes }: NamedBytes,
  invented: boolean,
): { readonly held: Held[] } | { readonly problems: readonly Problem[] } {
  const read = readDepartment({ name, sha256: "", text: new TextDecoder().decode(bytes) });
  if ("problems" in read) return read;
  const all = [...held, { ...read, bytes, invented }];
  const together = departmentsTogether(all);
  if (!("problems" in together)) return { held: all };
  const inFile = (problem: Problem) => ({ ...problem, place: { file: name, ...problem.place } });
  return { problems: together.problems.map(inFile) };
}
