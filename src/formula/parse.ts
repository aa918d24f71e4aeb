import type { Problem } from "../problem/problem.ts";
import { fault } from "./fault.ts";
import { operatorExpected } from "./form-faults.ts";
import { parseExpression } from "./parse-expression.ts";
import { TokenReader } from "./token-reader.ts";
import { tokenize } from "./tokenize.ts";
import type { Node } from "./tree.ts";

/**
 * Reads the text of a working into a tree, by precedence climbing.
 *
 * A working is one expression; it may run over several lines, and line breaks mean no more than
 * spaces. From the loosest to the tightest:
 *
 *     expression = "if" expression "then" expression "else" expression | choice
 *     choice     = both { "or" both }
 *     both       = denial { "and" denial }
 *     denial     = "not" denial | comparison
 *     comparison = sum [ ( "=" | "!=" | "≠" | "<" | "<=" | "≤" | ">" | ">=" | "≥" ) sum
 *                      | "is" [ "not" ] ( "missing" | "known" )
 *                      | "is" [ "not" ] "one" "of" sum
 *                      | [ "is" [ "not" ] ] "between" sum "and" sum ]
 *     sum        = product { ( "+" | "-" ) product }
 *     product    = signed { ( "*" | "/" ) signed }
 *     signed     = "-" signed | power
 *     power      = postfix [ "^" signed ]
 *     postfix    = primary { "." name [ "(" arguments ")" ] }
 *     primary    = number | number unit | day | text | "true" | "false" | "missing" | name
 *                | name "(" arguments ")" | "[" [ expression { "," expression } ] "]"
 *                | "(" expression ")"
 *     arguments  = [ argument { "," argument } ], by position first, then by name
 *     argument   = [ name ":" ] expression
 *     number     = digits [ "." digits ] [ "e" [ sign ] digits ] [ "%" ]
 *     day        = year "-" month "-" day, as in 2025-03-31
 *     unit       = "day" | "days" | "week" | "weeks" | "month" | "months" | "year" | "years"
 *     text       = '"' characters '"', with \" \\ \n \r \t
 *     name       = a letter of any alphabet or "_", then letters, digits and "_"
 *
 * As in common mathematical practice `-2^2` is -4, `2^3^2` is 2^(3^2) = 512 and `2^-1` is 0.5;
 * operators of one strength otherwise group from the left. Comparisons do not chain. `not` and
 * `if` inside an operator stand in brackets. `known`, `one` and `of` mean something only after
 * `is`, and units only after a number, so cells may have such names.
 */
export function parse(text: string): Parsed {
  if (text.length > longestWorking) return { tree: null, problems: [tooLong(text)] };
  const { tokens, problems: tokenProblems, mended } = tokenize(text);
  if (!mended) return { tree: null, problems: tokenProblems };
  const reader = new TokenReader(tokens);
  const tree = parseWorking(reader);
  const problems = [...tokenProblems, ...reader.problems];
  problems.sort((a, b) => (a.place.span?.start ?? 0) - (b.place.span?.start ?? 0));
  return { tree: reader.stopped ? null : tree, problems };
}

export interface Parsed {
  /**
   * Null where the form is not understood. A tree beside problems is as if they were mended: fit
   * for looking up names, not for working out.
   */
  readonly tree: Node | null;
  readonly problems: readonly Problem[];
}

/** The most UTF-16 units in a working. */
export const longestWorking = 10_000;

function tooLong(text: string): Problem {
  return fault(
    "working-too-long",
    { start: longestWorking, end: text.length },
    {
      message: `a working has at most ${longestWorking} characters.`,
      found: `${text.length} characters`,
      remedy: "give a part of it a cell of its own",
    },
  );
}

function parseWorking(reader: TokenReader): Node {
  const first = reader.peek();
  if (first.type === "end") {
    return reader.stop("empty-working", first.span, {
      message: "this working is empty.",
      expected: "a value or a call",
    });
  }
  const tree = parseExpression(reader);
  return reader.peek().type === "end" ? tree : operatorExpected(reader);
}
