import type { Field } from "./field.ts";
import { detachment } from "./fields/detachment.ts";
import { eyeBeforeSurgery } from "./fields/eye-before-surgery.ts";
import { operation } from "./fields/operation.ts";
import { outcome } from "./fields/outcome.ts";
import { whoAndWhen } from "./fields/who-and-when.ts";

/** Every field that a file of cases can hold, in the order of reading. */
export const dictionary: readonly Field[] = [
  ...whoAndWhen,
  ...eyeBeforeSurgery,
  ...detachment,
  ...operation,
  ...outcome,
];

const byName: ReadonlyMap<string, Field> = new Map(dictionary.map((field) => [field.name, field]));

/** The field of that name, or undefined. */
export function fieldNamed(name: string): Field | undefined {
  return byName.get(name);
}
