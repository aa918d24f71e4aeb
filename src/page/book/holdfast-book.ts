import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import type { Act } from "../act.ts";
import "../cases-leaf/cases-leaf.ts";
import type { SheetChoice } from "../cases-leaf/sheet-choice.ts";
import "../cases-leaf/sheet-choice.ts";
import "../desk/sheet-desk.ts";
import { BookKeeper, type Demo } from "../host/book-keeper.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import { BrowserStore } from "../host/device-store.ts";
import type { Host } from "../host/host.ts";
import { KeptNotebook } from "../host/kept-notebook.ts";
import type { NamedText } from "../host/named-text.ts";
import { BrowserCaseStore } from "../keeping/case-store.ts";
import { CasesKeeping, type KeepingState } from "../keeping/cases-keeping.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { KeyboardKept } from "../look/keyboard-kept.ts";
import { setRoom } from "../look/set-room.ts";
import { maskOfTitle } from "../meeting/hide-people.ts";
import "../meeting/meeting-leaf.ts";
import { copyFinding } from "../sheet/copy-finding.ts";
import "../sheet/sheet-leaf.ts";
import type { SheetLeaf } from "../sheet/sheet-leaf.ts";
import type { AnotherQuestion } from "./another-question.ts";
import "./another-question.ts";
import "./book-header.ts";
import { bookLook } from "./book-look.ts";
import "./book-notices.ts";
import "./book-tools.ts";
import type { DepartmentsDialog } from "./departments-dialog.ts";
import "./departments-dialog.ts";
import { downloadText } from "./download-text.ts";
import { FilesBroughtIn } from "./files-brought-in.ts";
import { LeafPlaces } from "./leaf-places.ts";
import type { NotebookList } from "./notebook-list.ts";
import "./notebook-list.ts";
import { printBook } from "./print-book.ts";
import { PrintKeys } from "./print-keys.ts";
import type { SaveReport } from "./save-report.ts";
import "./save-report.ts";
import "./three-ways.ts";
import { UndoKeys } from "./undo-keys.ts";

/** Requests after which the keyboard goes to the cell that they put somewhere, or that is left. */
const placing: readonly string[] = ["add cell", "copy cell", "move cell", "remove cell"];

/** The whole page: one book of three leaves, with its desk. It alone acts on what the reader does. */
@customElement("holdfast-book")
export class HoldfastBook extends LitElement {
  static override styles = [base, bookLook];

  @state() private book: BookState = closedBook;
  @query("sheet-leaf") private readonly sheet!: SheetLeaf | null;
  @query("sheet-leaf, meeting-leaf, cases-leaf") private readonly leaf!: LitElement | null;
  @query("main") private readonly ground!: HTMLElement;
  @query("another-question") private anotherQuestion!: AnotherQuestion;
  @query("notebook-list") private readonly notebooks!: NotebookList;
  @query("save-report") private readonly report!: SaveReport;
  @query("departments-dialog") private readonly departments!: DepartmentsDialog;
  @query("sheet-choice") private readonly sheets!: SheetChoice;
  @state() private copied = "";
  @state() private shipped: readonly NamedText[] = [];
  #keeper: BookKeeper | undefined;
  #keeping: CasesKeeping | undefined;
  @state() private keepsCases: KeepingState = "off";
  readonly #files = new FilesBroughtIn(this, (act) => this.#take(act));

  constructor() {
    super();
    // Paper is white, however dark the room is.
    window.addEventListener("beforeprint", () => setRoom(false));
    window.addEventListener("afterprint", () => setRoom(this.book.dark));
    window.addEventListener("beforeunload", (event) => {
      // The browser asks before it lets go of what is neither saved nor kept.
      const corrections = this.book.cases?.leaf?.unsavedCorrections ?? 0;
      if (this.book.unsaved && this.book.kept !== true) event.preventDefault();
      if (corrections > 0 && this.keepsCases !== "on") event.preventDefault();
    });
    new PrintKeys(this, () => printBook(this.leaf));
    new KeyboardKept(this, () => this.ground);
    new LeafPlaces(this, { leaf: () => this.book.leaf, scrolled: () => [this.ground, this] });
    new UndoKeys(this, (request) => this.#take({ act: "change", request }));
    this.addEventListener("act", (event) => this.#take((event as CustomEvent<Act>).detail));
  }

  /** Opens the demo, held by `host`. */
  async open(host: Host, demo: Demo): Promise<void> {
    const keeping = this.#keepingWith(host);
    const changed = () => {
      const { cases } = this.book;
      this.book = keeper.state;
      const isOther = cases !== undefined && cases !== this.book.cases;
      if (isOther && !this.book.cases?.invented) void keeping.casesChanged();
    };
    const keeper = new BookKeeper(host, changed, new KeptNotebook(new BrowserStore("holdfast")));
    this.#keeper = keeper;
    this.shipped = demo.shipped ?? [];
    if (window.matchMedia("(max-width: 43.75rem)").matches) {
      await keeper.take({ act: "fold desk", folded: true });
    }
    await keeper.open(demo, () => keeping.begin());
  }

  #keepingWith(host: Host): CasesKeeping {
    const keeping = new CasesKeeping(host, new BrowserCaseStore("holdfast cases"), () => {
      this.keepsCases = keeping.state;
    });
    this.#keeping = keeping;
    return keeping;
  }

  protected override willUpdate(): void {
    setRoom(this.book.dark);
    this.toggleAttribute("desk-open", this.book.leaf === "sheet" && !this.book.deskFolded);
    const title = maskOfTitle(this.book)(this.book.notebook?.title ?? "");
    document.title = [title, labels.product].filter(Boolean).join(" · ");
  }

  override render(): TemplateResult {
    const { book } = this;
    return html`
      <book-header class=${book.leaf} .book=${book}></book-header>
      ${book.leaf === "meeting" ? nothing : html`<book-tools .book=${book}></book-tools>`}
      <book-notices .mask=${maskOfTitle(book)} .notices=${book.notices} .progress=${book.progress}></book-notices>
      <main tabindex="-1">${this.#leaf()}</main>
      ${
        book.leaf === "sheet"
          ? html`<sheet-desk
              .book=${book}
              .host=${this.#keeper?.host}
              .said=${this.copied}
            ></sheet-desk>`
          : nothing
      }
      <another-question .book=${book}></another-question>
      <notebook-list .shipped=${this.shipped}></notebook-list>
      <save-report .book=${book} .host=${this.#keeper?.host}></save-report>
      <departments-dialog .book=${book} .host=${this.#keeper?.host}></departments-dialog>
      <sheet-choice .host=${this.#keeper?.host}></sheet-choice>
      ${this.#files.overlay()}
    `;
  }

  #leaf(): TemplateResult {
    const { book } = this;
    if (book.leaf === "cases") {
      return html`<cases-leaf
        .cases=${book.cases}
        .host=${this.#keeper?.host}
        .shown=${book.shownLines}
        .keeping=${this.#keeping}
        .standing=${this.keepsCases}
      ></cases-leaf>`;
    }
    if (book.leaf === "meeting") return html`<meeting-leaf .book=${book}></meeting-leaf>`;
    return html`${book.firstMinute ? html`<three-ways></three-ways>` : nothing}
      <sheet-leaf .book=${book}></sheet-leaf>`;
  }

  async #take(act: Act): Promise<void> {
    if (act.act === "ask another") return this.anotherQuestion.show(act.row);
    if (act.act === "list notebooks") return this.notebooks.show();
    if (act.act === "save report") return this.report.show();
    if (act.act === "list departments") return this.departments.show();
    if (act.act === "print") return printBook(this.leaf);
    if (act.act === "leave desk") return this.sheet?.focusChosen();
    if (act.act === "save notebook") return this.#save();
    if (act.act === "save corrections") return this.#saveCorrections();
    if (act.act === "copy answer") return this.#copy(act.cell);
    this.copied = "";
    const chosen = await this.#withSheet(act);
    if (chosen === undefined) return;
    await this.#keeper?.take(chosen);
    if (opensNotebook(act)) await this.#toTop();
    if (act.act === "choose" && act.enter) this.#enterDesk();
    if (act.act === "choose" && act.walk) await this.#walk();
    if (act.act === "change" && placing.includes(act.request.ask)) await this.#walk();
    if (act.act === "choose" || act.act === "pick") await this.#settleDesk();
  }

  /** A workbook of several sheets is opened at one of them; undefined where the reader leaves it. */
  async #withSheet(act: Act): Promise<Act | undefined> {
    if (act.act === "open file" && isWorkbook(act.file.name)) {
      const bytes = new Uint8Array(await act.file.arrayBuffer());
      const chosen = await this.sheets.chosenFor(act.file.name, bytes);
      return chosen && { ...act, ...chosen };
    }
    if (act.act !== "change" || act.request.ask !== "add cases") return act;
    const { request } = act;
    const chosen = isWorkbook(request.name)
      ? await this.sheets.chosenFor(request.name, request.bytes)
      : {};
    return chosen && { ...act, request: { ...request, ...chosen } };
  }

  /** The desk takes room from the sheet: what has the keyboard stays in sight. */
  async #settleDesk(): Promise<void> {
    await this.updateComplete;
    await this.renderRoot.querySelector("sheet-desk")?.updateComplete;
    this.sheet?.keepFocusInSight();
  }

  /** Goes to the chosen cell with the keyboard. */
  async #walk(): Promise<void> {
    await this.updateComplete;
    await this.sheet?.updateComplete;
    this.sheet?.focusChosen();
  }

  /** Another notebook is read from its beginning. */
  async #toTop(): Promise<void> {
    await this.updateComplete;
    for (const scrolled of [this.ground, this]) scrolled.scrollTo({ top: 0 });
  }

  #enterDesk(): void {
    this.renderRoot.querySelector("sheet-desk")?.enter();
  }

  async #copy(cell: string): Promise<void> {
    const view = this.book.cells.get(cell);
    const host = this.#keeper?.host;
    if (view === undefined || host === undefined) return;
    try {
      this.copied = await copyFinding(host, view);
    } catch (error) {
      this.#keeper?.tell(labels.broken(error instanceof Error ? error.message : String(error)));
    }
  }

  async #save(): Promise<void> {
    const file = await this.#keeper?.saved();
    if (file !== undefined) downloadText(file, "text/markdown");
  }

  async #saveCorrections(): Promise<void> {
    const file = await this.#keeper?.host.ask({ ask: "save corrections" });
    if (file !== undefined) downloadText(file, "text/csv");
  }
}

function isWorkbook(name: string): boolean {
  return /\.xls[xm]$/i.test(name);
}

function opensNotebook(act: Act): boolean {
  if (act.act === "open file") return /\.(md|markdown)$/i.test(act.file.name);
  if (act.act === "change") return act.request.ask === "open notebook";
  return act.act === "look around" || act.act === "begin again";
}

declare global {
  interface HTMLElementTagNameMap {
    "holdfast-book": HoldfastBook;
  }
}
