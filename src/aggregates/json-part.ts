import type { Problem } from "../problem/problem.ts";

/** A part of a JSON text that is not trusted: what stands there, and where. Collects what is wrong. */
export class JsonPart {
  readonly value: unknown;
  readonly #place: string;
  readonly #file: string;
  readonly #problems: Problem[];

  constructor(value: unknown, at: { place: string; file: string; problems: Problem[] }) {
    this.value = value;
    this.#place = at.place;
    this.#file = at.file;
    this.#problems = at.problems;
  }

  /** Notes what is wrong here. */
  refuse(expected: string, message = "this is not what it should be"): void {
    const text = JSON.stringify(this.value) ?? "nothing";
    this.#problems.push({
      code: "aggregates-unfit",
      severity: "stop",
      place: { file: this.#file, ...(this.#place === "" ? {} : { field: this.#place }) },
      message,
      found: text.length > 60 ? `${text.slice(0, 57)}...` : text,
      expected,
      remedy: "ask the department to write its aggregates again, and never edit them by hand",
    });
  }

  /** The parts of an object by name, own keys only; empty where it is none or has a key too many. */
  members(required: readonly string[], optional: readonly string[] = []): Map<string, JsonPart> {
    const { value } = this;
    if (typeof value !== "object" || value === null || Array.isArray(value)) {
      this.refuse(`an object with ${required.join(", ")}`);
      return new Map();
    }
    const entries = Object.entries(value);
    const known = new Set([...required, ...optional]);
    for (const [key] of entries) {
      if (!known.has(key)) this.refuse(`only ${[...known].join(", ")}`, named(key, "unknown"));
    }
    const names = new Set(entries.map(([key]) => key));
    for (const key of required) {
      if (!names.has(key)) this.refuse(`a value for ${key}`, named(key, "missing"));
    }
    return new Map(
      entries.filter(([key]) => known.has(key)).map(([key, each]) => [key, this.#part(each, key)]),
    );
  }

  items(most: number): JsonPart[] {
    const { value } = this;
    if (!Array.isArray(value) || value.length > most) {
      this.refuse(`a list of at most ${most}`);
      return [];
    }
    return value.map((each: unknown, at) => this.#part(each, String(at)));
  }

  /** A whole number within limits; the lower limit where it is none. */
  whole(least: number, most: number): number {
    const { value } = this;
    if (typeof value === "number" && Number.isInteger(value) && value >= least && value <= most) {
      return value;
    }
    this.refuse(`a whole number from ${least} to ${most}`);
    return least;
  }

  text(): string {
    const { value } = this;
    if (typeof value === "string" && value.length > 0 && value.length <= 200) return value;
    this.refuse("a text of 1 to 200 characters");
    return "";
  }

  oneOf<T extends string>(choices: readonly [T, ...T[]]): T {
    const found = choices.find((each) => each === this.value);
    if (found === undefined) this.refuse(`one of ${choices.join(", ")}`);
    return found ?? choices[0];
  }

  #part(value: unknown, name: string): JsonPart {
    const place = this.#place === "" ? name : `${this.#place}.${name}`;
    return new JsonPart(value, { place, file: this.#file, problems: this.#problems });
  }
}

function named(key: string, what: string): string {
  return `"${key.slice(0, 40)}" is ${what}`;
}
