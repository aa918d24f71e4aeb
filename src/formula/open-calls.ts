import type { Token } from "./piece.ts";
import type { Parameter, Vocabulary, Word } from "./vocabulary.ts";

/** A call whose brackets are open at a place of the text. */
export interface OpenCall {
  readonly word: Word;
  /** How many arguments by position stand before the place. */
  readonly position: number;
  /** The names of the arguments given so far, that at the place among them. */
  readonly named: ReadonlySet<string>;
  /** The name of the argument at the place, null where it goes by position. */
  readonly label: string | null;
  /** Whether an argument begins here: nothing of it stands before the place. */
  readonly atStart: boolean;
}

/** The calls of known words that the tokens open and do not close, innermost last. */
export function callsAt(tokens: readonly Token[], vocabulary: Vocabulary): readonly OpenCall[] {
  const brackets: Bracket[] = [];
  tokens.forEach((token, at) => {
    if (token.type !== "sign") return;
    const innermost = brackets.at(-1);
    if (token.text === "(" || token.text === "[") brackets.push(opened(tokens, at, vocabulary));
    else if (token.text === ")" || token.text === "]") brackets.pop();
    else if (token.text === "," && innermost !== undefined) nextArgument(innermost, at);
    else if (token.text === ":" && innermost !== undefined) label(innermost, tokens[at - 1]);
  });
  return brackets.flatMap((bracket) =>
    bracket.word === undefined
      ? []
      : [{ ...bracket, word: bracket.word, atStart: isStart(bracket, brackets, tokens) }],
  );
}

/** The parameter that the argument at the place fills, undefined where none is left. */
export function parameterAt({ word, position, label }: OpenCall): Parameter | undefined {
  if (label !== null) {
    const named = word.parameters.find((parameter) => parameter.name === label);
    return named ?? word.parameters.find((parameter) => parameter.freeNames === true);
  }
  const positional = word.parameters.filter((parameter) => parameter.byNameOnly !== true);
  const last = positional.at(-1);
  return positional[position] ?? (last?.repeated === true ? last : undefined);
}

interface Bracket {
  readonly word: Word | undefined;
  position: number;
  readonly named: Set<string>;
  label: string | null;
  /** The token that the argument at the place begins behind. */
  begins: number;
}

function opened(tokens: readonly Token[], at: number, vocabulary: Vocabulary): Bracket {
  const name = tokens[at - 1];
  const isPart = tokens[at - 2]?.type === "sign" && tokens[at - 2]?.text === ".";
  const isCall = tokens[at]?.text === "(" && name?.type === "name" && !isPart;
  const word = isCall ? vocabulary.get(name.text) : undefined;
  return { word, position: 0, named: new Set(), label: null, begins: at };
}

function nextArgument(bracket: Bracket, at: number): void {
  if (bracket.label === null) bracket.position++;
  bracket.label = null;
  bracket.begins = at;
}

function label(bracket: Bracket, name: Token | undefined): void {
  if (name?.type !== "name") return;
  bracket.label = name.text;
  bracket.named.add(name.text);
}

function isStart(
  bracket: Bracket,
  brackets: readonly Bracket[],
  tokens: readonly Token[],
): boolean {
  return bracket === brackets.at(-1) && bracket.begins === tokens.length - 1;
}
