import type { Problem, Span } from "../problem/problem.ts";
import { type FaultText, fault, type ReadingFault } from "./fault.ts";
import type { Token } from "./piece.ts";
import { childrenOf, type Node } from "./tree.ts";

/** The most levels of brackets, calls, `if`s and signs inside one another. */
export const mostLevels = 200;

/**
 * Walks over tokens for the parser. The first fault of form moves it to the end of the tokens,
 * where every loop of the parser ends by itself; later faults are consequences and are dropped.
 */
export class TokenReader {
  readonly problems: Problem[] = [];
  stopped = false;
  private readonly tokens: readonly Token[];
  private readonly heights = new Map<Node, number>();
  private readonly reaches = new Map<Node, Span>();
  private at = 0;
  private depth = 0;

  constructor(tokens: readonly Token[]) {
    this.tokens = tokens;
  }

  peek(ahead = 0): Token {
    return this.tokens[Math.min(this.at + ahead, this.tokens.length - 1)]!;
  }

  /** The token before the next one; at the start the first. */
  previous(): Token {
    return this.tokens[Math.max(this.at - 1, 0)]!;
  }

  next(): Token {
    const token = this.peek();
    this.at = Math.min(this.at + 1, this.tokens.length - 1);
    return token;
  }

  is(type: Token["type"], text: string, ahead = 0): boolean {
    const token = this.peek(ahead);
    return token.type === type && token.text === text;
  }

  /** Steps over the token if it is the one named. */
  accept(type: Token["type"], text: string): boolean {
    const found = this.is(type, text);
    if (found) this.next();
    return found;
  }

  /** A fault after which nothing can be read. Gives a node to stand where none could be read. */
  stop(code: ReadingFault, span: Span, text: FaultText): Node {
    if (!this.stopped) this.problems.push(fault(code, span, text));
    this.stopped = true;
    this.at = this.tokens.length - 1;
    return { type: "missing", span: this.peek().span };
  }

  /** A fault that leaves the rest of the working readable. */
  note(code: ReadingFault, span: Span, text: FaultText): void {
    if (!this.stopped) this.problems.push(fault(code, span, text));
  }

  /** Reads one level further in; a level too many is a fault, never a stack overflow. */
  inside(read: () => Node): Node {
    if (this.depth >= 2 * mostLevels) return this.stopTooDeep(this.peek().span);
    this.depth++;
    const node = read();
    this.depth--;
    return node;
  }

  /** The node as read, unless a chain of operators has made the tree too high. */
  made(node: Node): Node {
    let height = 0;
    for (const child of childrenOf(node)) height = Math.max(height, this.heights.get(child) ?? 0);
    this.heights.set(node, height + 1);
    return height >= mostLevels ? this.stopTooDeep(this.reach(node)) : node;
  }

  /** Remembers the brackets round a node. */
  bracketed(node: Node, span: Span): Node {
    this.reaches.set(node, span);
    return node;
  }

  /** The span of a node with the brackets round it. */
  reach(node: Node): Span {
    return this.reaches.get(node) ?? node.span;
  }

  /** From one node to another, brackets included. */
  reachOver(first: Node, last: Node): Span {
    return { start: this.reach(first).start, end: this.reach(last).end };
  }

  private stopTooDeep(span: Span): Node {
    return this.stop("too-deep", span, {
      message: `this working is nested more than ${mostLevels} levels deep.`,
      remedy: "give a part of it a cell of its own",
    });
  }
}
