/** By function, each edge of its input by name, as a call that is made when it is asked for. */
export type EdgeTable = Readonly<Record<string, Readonly<Record<string, () => unknown>>>>;

/** Every input through one function. */
export function over<Input>(
  inputs: Readonly<Record<string, Input>>,
  run: (input: Input) => unknown,
): Readonly<Record<string, () => unknown>> {
  return Object.fromEntries(
    Object.entries(inputs).map(([label, input]) => [label, () => run(input)]),
  );
}

/** An answer in a line: six digits, long columns by their ends, an error by its words. */
export function outcomeOf(run: () => unknown): string {
  try {
    return shown(run());
  } catch (error) {
    const { name, message } = error as Error;
    return `${name}: ${message}`;
  }
}

function shown(value: unknown): string {
  if (typeof value === "number") return String(Number(value.toPrecision(6)));
  if (typeof value === "function") return "a function";
  if (typeof value !== "object" || value === null) return String(value);
  if (Array.isArray(value) || ArrayBuffer.isView(value)) {
    const items = Array.from(value as ArrayLike<unknown>, shown);
    const ends = items.length > 8 ? [...items.slice(0, 4), "…", ...items.slice(-2)] : items;
    return `[${ends.join(" ")}]`;
  }
  const fields = Object.entries(value).filter(([key]) => !LEFT_OUT.includes(key));
  return `{${fields.map(([key, field]) => `${key}: ${shown(field)}`).join(", ")}}`;
}

/** What a fit keeps for its residuals is not its answer. */
const LEFT_OUT = ["data", "evaluation"];

/** Where an answer holds NaN, by path. */
export function placesOfNaN(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isNaN(value) ? [path] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value)
    .filter(([key]) => !LEFT_OUT.includes(key))
    .flatMap(([key, field]) => placesOfNaN(field, path === "" ? key : `${path}.${key}`));
}
