import type { Host } from "../host/host.ts";
import type { CaseRow } from "../protocol.ts";

const pageLength = 100;
/** Pages kept; the oldest goes first. */
const mostPages = 60;

/** Rows of the cases, fetched from the host a page at a time when they are first drawn. */
export class CasePages {
  readonly #host: Host;
  readonly #arrived: () => void;
  readonly #pages = new Map<number, readonly CaseRow[] | "asked">();

  constructor(host: Host, arrived: () => void) {
    this.#host = host;
    this.#arrived = arrived;
  }

  /** The row, or undefined until it has arrived. */
  row(position: number): CaseRow | undefined {
    const number = Math.floor(position / pageLength);
    const page = this.#pages.get(number);
    if (page === undefined) void this.#fetch(number);
    return page === undefined || page === "asked" ? undefined : page[position % pageLength];
  }

  async #fetch(number: number): Promise<void> {
    this.#pages.set(number, "asked");
    const from = number * pageLength;
    const { rows } = await this.#host.ask({ ask: "case rows", from, count: pageLength });
    this.#pages.set(number, rows);
    if (this.#pages.size > mostPages) this.#pages.delete(this.#pages.keys().next().value ?? 0);
    this.#arrived();
  }
}
