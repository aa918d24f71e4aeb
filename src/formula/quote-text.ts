/** A text as a working writes it: in double quotes, with `\"`, `\\`, `\n`, `\r` and `\t`. */
export function quoteText(text: string): string {
  return `"${text.replace(/["\\\n\r\t]/g, (character) => escapes.get(character) ?? character)}"`;
}

/** What stands behind a backslash, and the character it stands for. */
export const escaped: ReadonlyMap<string, string> = new Map([
  ['"', '"'],
  ["\\", "\\"],
  ["n", "\n"],
  ["r", "\r"],
  ["t", "\t"],
]);

const escapes = new Map([...escaped].map(([letter, character]) => [character, `\\${letter}`]));
