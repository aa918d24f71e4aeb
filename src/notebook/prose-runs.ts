export interface Run {
  readonly text: string;
  readonly style: "plain" | "emphasis" | "strong" | "code";
}

/**
 * The runs of one line of text: emphasis, strong, code. The rules for what a mark opens and closes
 * are those of CommonMark 0.31.2, sections 6.1 to 6.3; a run within another is the stronger of the
 * two, and the text of a link stands without its address.
 */
export function readRuns(text: string): readonly Run[] {
  const pieces = piecesOf(text);
  matchMarks(pieces);
  const runs: Run[] = [];
  for (const piece of pieces) {
    const run = runOf(piece);
    const last = runs.at(-1);
    if (run.text === "") continue;
    if (last === undefined || last.style !== run.style || run.style === "code") runs.push(run);
    else runs[runs.length - 1] = { ...last, text: last.text + run.text };
  }
  return runs;
}

type Piece = Written | Mark;

interface Written {
  readonly type: "text" | "code";
  readonly text: string;
  style: "plain" | "emphasis" | "strong";
}

/** A run of `*` or `_`; `left` of it are not matched yet and stand as they were written. */
interface Mark {
  readonly type: "mark";
  readonly sign: string;
  readonly length: number;
  readonly opens: boolean;
  readonly closes: boolean;
  left: number;
  isOpen: boolean;
  style: "plain" | "emphasis" | "strong";
}

const escaped = /^\\([!-/:-@[-`{-~])/;
const link = /^!?\[([^\]]*)\]\([^)]*\)/;
const marks = /^(\*+|_+)/;
const ticks = /^`+/;
const other = /^[^\\!*_`[]+|^./su;

function piecesOf(text: string): Piece[] {
  const pieces: Piece[] = [];
  for (let at = 0; at < text.length; ) {
    const [read, length] = pieceAt(text, at);
    pieces.push(...read);
    at += length;
  }
  return pieces;
}

/** What is written at a place, and how many characters it takes. */
function pieceAt(text: string, at: number): readonly [readonly Piece[], number] {
  const rest = text.slice(at);
  const sign = escaped.exec(rest);
  if (sign !== null) return [[written(sign[1] ?? "")], 2];
  const fence = ticks.exec(rest)?.[0];
  if (fence !== undefined) return codeAt(rest, fence);
  const linked = link.exec(rest);
  if (linked !== null) return [piecesOf(linked[1] ?? ""), linked[0].length];
  const mark = marks.exec(rest)?.[0];
  if (mark !== undefined) return [[markOf(text, at, mark)], mark.length];
  const plain = other.exec(rest)?.[0] ?? rest;
  return [[written(plain)], plain.length];
}

/** A span of code, or the backticks themselves where as many do not come again. */
function codeAt(rest: string, fence: string): readonly [readonly Piece[], number] {
  const end = new RegExp(`(?<!\`)${fence}(?!\`)`, "g");
  end.lastIndex = fence.length;
  const close = end.exec(rest);
  if (close === null) return [[written(fence)], fence.length];
  const inside = rest.slice(fence.length, close.index).replaceAll("\n", " ");
  const isPadded = /^ .* $/s.test(inside) && inside.trim() !== "";
  const text = isPadded ? inside.slice(1, -1) : inside;
  return [[{ type: "code", text, style: "plain" }], close.index + fence.length];
}

function written(text: string): Written {
  return { type: "text", text, style: "plain" };
}

/** A mark leans on the text behind it, before it, or both: section 6.2. */
function markOf(text: string, at: number, signs: string): Mark {
  const before = text[at - 1] ?? " ";
  const after = text[at + signs.length] ?? " ";
  const [spaceBefore, spaceAfter] = [isSpace(before), isSpace(after)];
  const [signBefore, signAfter] = [isSign(before), isSign(after)];
  const leansRight = !spaceAfter && (!signAfter || spaceBefore || signBefore);
  const leansLeft = !spaceBefore && (!signBefore || spaceAfter || signAfter);
  const isStar = signs.startsWith("*");
  return {
    ...{ type: "mark", sign: signs[0] ?? "", length: signs.length, left: signs.length },
    opens: leansRight && (isStar || !leansLeft || signBefore),
    closes: leansLeft && (isStar || !leansRight || signAfter),
    ...{ isOpen: true, style: "plain" },
  };
}

function isSpace(character: string): boolean {
  return /\s/u.test(character);
}

function isSign(character: string): boolean {
  return /[\p{P}\p{S}]/u.test(character);
}

/** Gives what stands between two matching marks its style; each closing mark takes the nearest. */
function matchMarks(pieces: readonly Piece[]): void {
  pieces.forEach((closer, at) => {
    if (closer.type !== "mark" || !closer.closes) return;
    while (closer.left > 0) {
      const from = pieces.slice(0, at).findLastIndex((piece) => isOpener(piece, closer));
      const opener = pieces[from];
      if (opener?.type !== "mark") return;
      const isStrong = Math.min(opener.left, closer.left) >= 2;
      for (const piece of pieces.slice(from + 1, at)) {
        if (isStrong || piece.style === "plain") piece.style = isStrong ? "strong" : "emphasis";
        if (piece.type === "mark") piece.isOpen = false;
      }
      opener.left -= isStrong ? 2 : 1;
      closer.left -= isStrong ? 2 : 1;
    }
  });
}

/** Rules 9 and 10: where either both opens and closes, their lengths may not add up to threes. */
function isOpener(piece: Piece, closer: Mark): piece is Mark {
  if (piece.type !== "mark" || !piece.opens || !piece.isOpen || piece.left === 0) return false;
  if (piece.sign !== closer.sign) return false;
  const isThrees = (piece.length + closer.length) % 3 === 0;
  const areBothThrees = piece.length % 3 === 0 && closer.length % 3 === 0;
  return !(piece.closes || closer.opens) || !isThrees || areBothThrees;
}

function runOf(piece: Piece): Run {
  if (piece.type === "mark") return { text: piece.sign.repeat(piece.left), style: piece.style };
  return { text: piece.text, style: piece.type === "code" ? "code" : piece.style };
}
