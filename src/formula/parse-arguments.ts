import { argumentNameExpected, expectClosing } from "./form-faults.ts";
import type { TokenReader } from "./token-reader.ts";
import type { Argument, Node } from "./tree.ts";

/**
 * Reads the arguments of a call from its opening bracket to its closing one. Arguments stand by
 * position first, then by name, each name once; where not, it is noted and reading goes on.
 */
export function parseArguments(
  reader: TokenReader,
  parseExpression: (reader: TokenReader) => Node,
): readonly Argument[] {
  const opening = reader.next();
  const given: Argument[] = [];
  if (!reader.is("sign", ")")) {
    do given.push(parseArgument(reader, parseExpression));
    while (reader.accept("sign", ","));
  }
  expectClosing(reader, ")", opening.span);
  noteOrder(reader, given);
  noteRepeats(reader, given);
  return given;
}

function parseArgument(
  reader: TokenReader,
  parseExpression: (reader: TokenReader) => Node,
): Argument {
  const isNamed = reader.is("sign", ":", 1);
  const label = reader.peek();
  if (isNamed && label.type !== "name") {
    const value = argumentNameExpected(reader);
    return { span: value.span, name: null, nameSpan: null, value };
  }
  if (isNamed) {
    reader.next();
    reader.next();
  }
  const value = parseExpression(reader);
  const { start, end } = reader.reach(value);
  if (!isNamed) return { span: { start, end }, name: null, nameSpan: null, value };
  const span = { start: label.span.start, end };
  return { span, name: label.text, nameSpan: label.span, value };
}

function noteOrder(reader: TokenReader, given: readonly Argument[]): void {
  const firstNamed = given.findIndex((argument) => argument.name !== null);
  if (firstNamed < 0) return;
  for (const argument of given.slice(firstNamed)) {
    if (argument.name !== null) continue;
    reader.note("positional-after-named", argument.span, {
      message: "an argument without a name stands behind one with a name.",
      expected: "arguments by position first, then arguments by name",
      remedy: `move it before \`${given[firstNamed]?.name}:\`, or give it its name`,
    });
  }
}

function noteRepeats(reader: TokenReader, given: readonly Argument[]): void {
  const seen = new Set<string>();
  for (const { name, nameSpan } of given) {
    if (name === null || nameSpan === null) continue;
    if (seen.has(name)) {
      reader.note("argument-given-twice", nameSpan, {
        message: `\`${name}\` is given twice in this call.`,
        found: name,
        remedy: "keep one of the two",
      });
    }
    seen.add(name);
  }
}
