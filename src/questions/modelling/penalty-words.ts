import type { Sentence } from "../answer.ts";
import { capitalised, listed } from "../answering/wording.ts";
import { columnsInWords, type ModelData } from "./model-data.ts";

/** What made Firth's penalised likelihood needed. */
export interface Penalty {
  readonly data: ModelData;
  readonly hasFailed: (eye: number) => boolean;
  /** Names of the columns without a finite ordinary estimate. */
  readonly infinite: readonly string[];
  /** Said where every column has one; null where the penalty was asked for. */
  readonly otherwise: string | null;
}

/**
 * " No eye with technique: laser or cryo alone failed, so Firth's penalised likelihood is used for
 * the whole model; its limits treat eyes as independent."
 */
export function penaltyWords(penalty: Penalty): Sentence {
  const { data, infinite, otherwise } = penalty;
  const reasons = infinite.map((name) => reasonOf(name, penalty));
  const why = reasons.length === 0 ? otherwise : capitalised(listed(reasons));
  const pairs = data.cluster === undefined ? "" : "; its limits treat eyes as independent";
  if (why === null) return [` Firth's penalised likelihood is used, as asked${pairs}.`];
  return [` ${why}, so Firth's penalised likelihood is used for the whole model${pairs}.`];
}

function reasonOf(name: string, { data, hasFailed }: Penalty): string {
  const [words = name] = columnsInWords(data, [name]);
  const level = data.columns[data.names.indexOf(name)];
  const isAmount = data.terms.some(
    ({ kind, levels }) => kind === "amount" && level !== undefined && levels.includes(level),
  );
  const failed = level?.eyes.filter(hasFailed).length ?? 0;
  if (!isAmount && failed === 0) return `no eye with ${words} failed`;
  if (!isAmount && failed === level?.eyes.length) return `every eye with ${words} failed`;
  return `the term ${words} has no finite estimate otherwise`;
}
