import type { Act } from "../act.ts";
import type { AtStart } from "../cases-protocol.ts";
import type { KeepingState } from "../keeping/cases-keeping.ts";
import { labels } from "../labels.ts";
import type { News, Request } from "../protocol.ts";
import {
  afterNews,
  type BookState,
  closedBook,
  type Picked,
  type ShownLines,
  withNotice,
} from "./book-state.ts";
import { fileRequest } from "./file-request.ts";
import type { Host } from "./host.ts";
import { type Draft, type Kept, KeptNotebook } from "./kept-notebook.ts";
import type { NamedText } from "./named-text.ts";
import { isPooled, openDepartments, openInventedDepartments } from "./open-departments.ts";

export interface Demo {
  readonly notebook: NamedText;
  readonly cases: NamedText;
  /** Aggregates of invented departments. */
  readonly departments?: readonly NamedText[];
  /** Notebooks that come with the page, the first steps among them. */
  readonly shipped?: readonly NamedText[];
}

/** Opens the reader's own cases where they are kept on this device, and says how that stands. */
export type OpenOwn = () => Promise<KeepingState>;

type FileOpened = Extract<Act, { act: "open file" }>;

/** Requests after which the reader is on the way. */
const movesOn: readonly Request["ask"][] = ["open cases", "open notebook", "add cell"];

/** Keeps what the page shows: takes the reader's acts and the host's news, and tells of changes. */
export class BookKeeper {
  state: BookState = closedBook;
  readonly host: Host;
  readonly #changed: () => void;
  readonly #kept: KeptNotebook;
  #demo: Demo | undefined;
  #isOpen = false;
  #hasOpenedCases = false;

  constructor(host: Host, changed: () => void, kept = new KeptNotebook(undefined)) {
    this.host = host;
    this.#changed = changed;
    this.#kept = kept;
    host.listen((news) => this.#become(this.#afterNews(news)));
  }

  /**
   * Fetches the words of the vocabulary and opens the notebook as it was left, or else the demo;
   * then the reader's own cases where they are kept, before any answer of the demo is worked out.
   */
  async open(demo: Demo, openOwn: OpenOwn = async () => "off"): Promise<void> {
    this.#demo = demo;
    await this.#guarded(async () => {
      const { words } = await this.host.ask({ ask: "words" });
      this.#become({ ...this.state, words });
      const kept = await this.#openKept(demo);
      await openInventedDepartments(this.host, demo.departments);
      this.#isOpen = true;
      const own = await openOwn();
      await this.#openFirstCases(own);
      if (kept?.draft !== undefined) await this.#takeUp(kept.draft);
      const firstMinute = kept === undefined && own === "off";
      this.#become({ ...this.state, firstMinute });
    });
  }

  /** Cases that a passphrase seals are asked for on their leaf; where there are none, the demo's. */
  async #openFirstCases(own: KeepingState): Promise<void> {
    if (own === "on") return this.tell(labels.keptOpened);
    if (own === "locked") return this.#become({ ...this.state, leaf: "cases" });
    if (own === "unreadable") this.tell(labels.keptUnreadable);
    // A reader in a hurry has opened theirs already.
    if (!this.#hasOpenedCases) await this.#openInvented({ atStart: true });
  }

  async #openInvented(how: AtStart): Promise<void> {
    if (this.#demo === undefined) return;
    const { name, text } = this.#demo.cases;
    const bytes = new TextEncoder().encode(text);
    await this.#change({ ask: "open cases", name, bytes, invented: true, ...how });
  }

  /** Opens what is kept on this device; the demo where nothing is, or nothing that can be read. */
  async #openKept(demo: Demo): Promise<Kept | undefined> {
    const kept = await this.#kept.read();
    const opening = { ask: "open notebook", atStart: true } as const;
    if (kept !== undefined && (await this.#change({ ...opening, ...kept.notebook }))) {
      const notice = labels.openedAsLeft(kept.notebook.name);
      this.#become({ ...withNotice(this.state, notice, []), kept: true });
      return kept;
    }
    await this.#change({ ...opening, ...demo.notebook });
    return undefined;
  }

  /** What was being written when the page went away goes into its working. */
  async #takeUp({ cell, text }: Draft): Promise<void> {
    const view = this.state.cells.get(cell);
    if (view === undefined || view.working === text) return;
    await this.#change({ ask: "set working", cell, working: text });
    await this.#kept.keepDraft(undefined);
    this.#become(withNotice(this.state, labels.openedWithDraft(cell), []));
  }

  /** Says something that stays until the reader puts it away. */
  tell(text: string): void {
    this.#become(withNotice(this.state, text, []));
  }

  /** Does what the reader asked for; whatever goes wrong becomes a notice. */
  take(act: Act): Promise<void> {
    return this.#guarded(() => this.#do(act));
  }

  async #do(act: Act): Promise<void> {
    switch (act.act) {
      case "turn to":
        return this.#become({ ...this.state, leaf: act.leaf });
      case "choose":
        return this.#choose(act.cell);
      case "pick":
        return this.#pick(act.cell, act.key);
      case "change":
        await this.#change(act.request);
        return;
      case "hold":
        await this.host.ask(act.request);
        return;
      case "open file":
        return this.#openFile(act);
      case "open departments":
        return this.#openDepartments(act.files);
      case "fold desk":
        return this.#become({ ...this.state, deskFolded: act.folded });
      case "darken":
        return this.#become({ ...this.state, dark: act.dark });
      case "show codes":
        return this.#become({ ...this.state, codesShown: act.shown });
      case "put away":
        return this.#putAway(act.notice);
      case "show lines":
        return this.#showLines(act);
      case "draft":
        return this.#keepDraft(act);
      case "put ways away":
        return this.#become({ ...this.state, firstMinute: false });
      case "look around":
        return this.#openShipped("first-steps.md");
      case "begin again":
        return this.#beginAgain();
      case "open invented cases":
        return this.#openInvented({});
    }
  }

  #showLines({ title, lines }: ShownLines): void {
    this.#become({ ...this.state, leaf: "cases", shownLines: { title, lines } });
  }

  async #keepDraft({ cell, text }: Extract<Act, { act: "draft" }>): Promise<void> {
    await this.#kept.keepDraft(text === undefined ? undefined : { cell, text });
  }

  async #openShipped(name: string): Promise<void> {
    const notebook = this.#demo?.shipped?.find((shipped) => shipped.name === name);
    if (notebook !== undefined) await this.#change({ ask: "open notebook", ...notebook });
  }

  async #beginAgain(): Promise<void> {
    if (this.#demo === undefined) return;
    await this.#change({ ask: "open notebook", ...this.#demo.notebook });
    await this.#kept.forget();
    const { kept: _, ...rest } = this.state;
    this.#become({ ...rest, firstMinute: true });
  }

  #choose(cell: string): void {
    if (cell === this.state.chosen) return;
    const { picked: _, ...rest } = this.state;
    this.#become({ ...rest, chosen: cell });
  }

  async #pick(cell: string, key: string): Promise<void> {
    this.#become({ ...this.state, chosen: cell, deskFolded: false });
    const rows = await this.host.ask({ ask: "pick", cell, key });
    if (rows !== null) this.#become({ ...this.state, picked: { cell, key, ...rows } });
  }

  /** False where the host could not do it; then a notice says why. */
  async #change(request: Request): Promise<boolean> {
    const reply = await this.host.ask(request);
    if (reply !== null && "done" in reply && !reply.done) {
      this.#become(withNotice(this.state, labels.notDone(request.ask), reply.problems));
      return false;
    }
    if (request.ask === "rename cell") this.#choose(request.to);
    if (request.ask === "add cell" || request.ask === "copy cell") this.#choose(request.name);
    const firstMinute = this.state.firstMinute && !movesOn.includes(request.ask);
    if (firstMinute !== this.state.firstMinute) this.#become({ ...this.state, firstMinute });
    if (request.ask !== "open cases") await this.#keep(request.ask !== "open notebook");
    return true;
  }

  /** Keeps the notebook on this device after each change that the reader made. */
  async #keep(unsaved: boolean): Promise<void> {
    if (!this.#isOpen) return;
    const kept = await this.#kept.keep(await this.host.ask({ ask: "notebook text" }));
    this.#become({ ...this.state, unsaved, kept });
  }

  /** The notebook as a file; from now on it counts as saved. */
  async saved(): Promise<NamedText> {
    const file = await this.host.ask({ ask: "notebook text" });
    this.#become({ ...this.state, unsaved: false });
    return file;
  }

  /** Cases that came with a file are put to it; where it brings none itself, to the next that does. */
  async #openFile({ file, sheet, further = [] }: FileOpened): Promise<void> {
    const broughtCases = await this.#openOne(file, sheet);
    const [next, ...others] = further;
    if (next === undefined) return;
    if (!broughtCases) return this.#openFile({ act: "open file", file: next, further: others });
    for (const more of further) {
      const bytes = new Uint8Array(await more.arrayBuffer());
      await this.#change({ ask: "add cases", as: "operations", name: more.name, bytes });
    }
  }

  /** Whether it was a file of cases, and was opened. */
  async #openOne(file: File, sheet: string | undefined): Promise<boolean> {
    const hasCases = this.state.cases !== undefined;
    const request = await fileRequest(file, { sheet, hasCases });
    if (request === "aggregates") {
      await this.#openDepartments([file]);
      return false;
    }
    if (request.ask === "open cases") this.#hasOpenedCases = true;
    const isDone = await this.#change(request);
    if (!isDone || request.ask !== "open cases") return false;
    if (isPooled(this.state.notebook)) this.tell(labels.casesUnasked(file.name));
    return true;
  }

  async #openDepartments(files: readonly File[]): Promise<void> {
    const { done, notices } = await openDepartments(this.host, files, this.state.notebook);
    if (done) this.#become({ ...this.state, firstMinute: false });
    for (const { text, problems } of notices) this.#become(withNotice(this.state, text, problems));
  }

  #putAway(notice: number): void {
    const notices = this.state.notices.filter(({ id }) => id !== notice);
    this.#become({ ...this.state, notices });
  }

  /** A recalculated cell has other rows behind its numbers: what was picked is fetched anew. */
  #afterNews(news: News): BookState {
    const next = afterNews(this.state, news);
    const picked = next.picked;
    if (news.tell !== "cells" || picked === undefined) return next;
    if (news.views.some(({ name, status }) => name === picked.cell && status === "current")) {
      void this.#guarded(() => this.#pickAgain(picked));
    }
    return next;
  }

  async #pickAgain(before: Picked): Promise<void> {
    const { cell, key } = before;
    const rows = await this.host.ask({ ask: "pick", cell, key });
    const { picked, ...rest } = this.state;
    if (picked?.cell !== cell || picked.key !== key) return;
    this.#become(rows === null ? rest : { ...rest, picked: { cell, key, ...rows } });
  }

  async #guarded(work: () => void | Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      this.#become(withNotice(this.state, labels.broken(message), []));
    }
  }

  #become(state: BookState): void {
    this.state = state;
    this.#changed();
  }
}
