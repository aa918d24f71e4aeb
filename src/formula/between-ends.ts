import type { BetweenNode, BinaryNode } from "./tree.ts";

/** `x between a and b` as the two comparisons it stands for: `x >= a`, `x <= b`. */
export function betweenEnds({ operand, low, high, span }: BetweenNode): [BinaryNode, BinaryNode] {
  const of = { type: "binary", span, left: operand } as const;
  return [
    { ...of, operator: ">=", operatorSpan: low.span, right: low },
    { ...of, operator: "<=", operatorSpan: high.span, right: high },
  ];
}
