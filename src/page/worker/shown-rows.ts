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
  TextWanted,
} from "../cases-protocol.ts";
import { type ArrangedCases, arrangeRows } from "./arrange-rows.ts";
import { placesIn } from "./case-places.ts";
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

  /** The next place that holds a text, in whatever case; from the end it begins again. */
  find({ text, arrangement, columns, behind }: TextWanted): CasesReplies["find in cases"] {
    const reading = this.#session.caseReading;
    const wanted = text.trim().toLowerCase();
    if (reading === undefined || wanted === "" || columns.length === 0) return null;
    const { rows } = this.#arranged(reading, arrangement);
    const shown = columns.flatMap((name) => {
      const column = reading.cases.columns[reading.cases.positions.get(name) ?? -1];
      return column === undefined ? [] : [column];
    });
    const total = rows.length * shown.length;
    const start = behind.row * shown.length + behind.column + 1;
    for (let step = 0; step < total; step++) {
      const position = (start + step) % total;
      const row = Math.floor(position / shown.length);
      const column = shown[position % shown.length]!;
      const value = valueText(column, column.values[rows[row]!]);
      if (value.toLowerCase().includes(wanted)) return { row, column: column.name };
    }
    return null;
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
