import type { Problem } from "../../problem/problem.ts";
import type { Arrangement, CaseRow } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";

const pageLength = 100;
/** Pages kept; the one fetched longest ago goes first. */
const mostPages = 60;

/** How many rows an arrangement has, and what is wrong with its condition. */
export interface ArrangedCount {
  readonly count: number;
  readonly undecided: number;
  readonly problems: readonly Problem[];
}

export interface PagesWanted {
  readonly host: Host;
  readonly arrangement: Arrangement;
  readonly arrived: () => void;
  /** Of the same rows before a value in them changed: drawn until these have arrived. */
  readonly before?: CasePages | undefined;
}

/** Rows in an arrangement, fetched from the host a page at a time when they are first drawn. */
export class CasePages {
  readonly arrangement: Arrangement;
  /** Undefined until the first page has arrived. */
  counted: ArrangedCount | undefined;
  readonly #host: Host;
  readonly #arrived: () => void;
  readonly #pages = new Map<number, readonly CaseRow[] | "asked">();
  #before: CasePages | undefined;

  constructor({ host, arrangement, arrived, before }: PagesWanted) {
    this.#host = host;
    this.arrangement = arrangement;
    this.#arrived = arrived;
    this.counted = before?.counted;
    this.#before = before;
    if (before !== undefined) before.#before = undefined;
    void this.#fetch(0);
  }

  /** The row as it is drawn: as it was, until it has arrived. */
  drawn(position: number): CaseRow | undefined {
    return this.row(position) ?? this.#before?.rowAtHand(position);
  }

  /** The row, or undefined until it has arrived. */
  row(position: number): CaseRow | undefined {
    const number = Math.floor(position / pageLength);
    if (!this.#pages.has(number)) void this.#fetch(number);
    return this.rowAtHand(position);
  }

  /** The row, where it need not be fetched. */
  rowAtHand(position: number): CaseRow | undefined {
    const page = this.#pages.get(Math.floor(position / pageLength));
    return page === undefined || page === "asked" ? undefined : page[position % pageLength];
  }

  async #fetch(number: number): Promise<void> {
    this.#pages.set(number, "asked");
    const { arrangement } = this;
    const from = number * pageLength;
    const request = { ask: "arranged rows", arrangement, from, count: pageLength } as const;
    const { rows, ...counted } = await this.#host.ask(request);
    this.counted = counted;
    this.#pages.delete(number);
    this.#pages.set(number, rows);
    if (this.#pages.size > mostPages) this.#pages.delete(this.#pages.keys().next().value ?? 0);
    this.#arrived();
  }
}
