import type { CaseReading } from "../../cases/case-reading.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { vocabulary } from "../../questions/vocabulary.ts";
import { isSame } from "../../recalculation/is-same.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type {
  ArrangedRows,
  Arrangement,
  CaseRow,
  CasesReplies,
  TextRange,
  TextWanted,
} from "../cases-protocol.ts";
import { type ArrangedCases, arrangeRows } from "./arrange-rows.ts";
import { placesIn } from "./case-places.ts";
import { findText } from "./find-text.ts";
import { Pace } from "./pace.ts";
import { textOfRows } from "./text-of-rows.ts";
import { valueText } from "./value-text.ts";

type Session = NotebookSession<SettingChange>;

interface LastArranged {
  readonly reading: CaseReading;
  readonly arrangement: Arrangement;
  readonly arranged: ArrangedCases;
}

/** The rows that the grid shows, in the arrangement that it asks for. */
export class ShownRows {
  readonly #session: Session;
  #last: LastArranged | undefined;
  #searches = 0;

  constructor(session: Session) {
    this.#session = session;
  }

  rows(arrangement: Arrangement, from: number, count: number): ArrangedRows {
    const reading = this.#session.caseReading;
    if (reading === undefined) return { rows: [], count: 0, undecided: 0, problems: [] };
    const { rows, undecided, problems } = this.#arranged(reading, arrangement);
    return {
      rows: rows.slice(from, from + count).map((row) => rowView(reading, row)),
      count: rows.length,
      undecided,
      problems,
    };
  }

  placeOf(
    arrangement: Arrangement,
    at: { readonly file?: string; readonly line: number },
  ): CasesReplies["place of row"] {
    const reading = this.#session.caseReading;
    const row = reading && placesIn(reading).rowAt(at);
    if (reading === undefined || row === undefined) return null;
    const position = this.#arranged(reading, arrangement).rows.indexOf(row);
    return position < 0 ? null : { row: position };
  }

  /** The next place that holds a text. A search that begins overtakes the one before it. */
  async find(wanted: TextWanted): Promise<CasesReplies["find in cases"]> {
    const own = ++this.#searches;
    const isOvertaken = () => own !== this.#searches;
    const found = await this.#breathing((reading) => {
      const { rows } = this.#arranged(reading, wanted.arrangement);
      return findText({ ...wanted, reading, rows });
    }, isOvertaken);
    return isOvertaken() ? { overtaken: true } : (found ?? null);
  }

  /** What is marked, as text. */
  async text({ arrangement, rows: [from, to], columns }: TextRange): Promise<string> {
    const text = await this.#breathing((reading) => {
      const rows = this.#arranged(reading, arrangement).rows.slice(from, to + 1);
      return textOfRows(reading, rows, columns);
    });
    return text ?? "";
  }

  /**
   * Does long work on the cases, and lets what is asked meanwhile be answered. Where the cases
   * change underneath, it begins again in them. Undefined without cases, or once it is idle.
   */
  async #breathing<Result>(
    begin: (reading: CaseReading) => Generator<undefined, Result>,
    isIdle = () => false,
  ): Promise<Result | undefined> {
    const pace = new Pace();
    const reading = this.#session.caseReading;
    const work = reading && begin(reading);
    for (let step = work?.next(); step !== undefined; step = work?.next()) {
      if (step.done) return step.value;
      const breath = pace.turn();
      if (breath === undefined) continue;
      await breath;
      if (isIdle()) return undefined;
      if (reading !== this.#session.caseReading) return this.#breathing(begin, isIdle);
    }
    return undefined;
  }

  #arranged(reading: CaseReading, arrangement: Arrangement): ArrangedCases {
    const last = this.#last;
    const isConditional = (arrangement.where ?? "").trim() !== "";
    // A condition can name a cell of the sheet, whose value may have changed.
    const isKnown =
      !isConditional && last?.reading === reading && isSame(last.arrangement, arrangement);
    if (isKnown) return last.arranged;
    const arranged = arrangeRows(reading, arrangement, this.#scope());
    this.#last = { reading, arrangement, arranged };
    return arranged;
  }

  #scope() {
    const { sheet } = this.#session;
    return {
      vocabulary,
      cell: (name: string) => {
        const state = sheet.names().includes(name) ? sheet.state(name) : undefined;
        return state?.status === "current" ? state.value : undefined;
      },
      names: () => sheet.names(),
    };
  }
}

function rowView(reading: CaseReading, row: number): CaseRow {
  const { columns } = reading.cases;
  const places = placesIn(reading);
  const positions = (names: ReadonlySet<string>) =>
    columns.flatMap(({ name }, position) => (names.has(name) ? [position] : []));
  return {
    ...places.atOf(row),
    texts: columns.map((column) => valueText(column, column.values[row])),
    queried: positions(places.queriedIn(row)),
    corrected: positions(places.correctedIn(row)),
  };
}
