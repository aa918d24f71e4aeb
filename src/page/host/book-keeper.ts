import type { Act } from "../act.ts";
import { labels } from "../labels.ts";
import type { News, Request } from "../protocol.ts";
import { afterNews, type BookState, closedBook, type Picked, withNotice } from "./book-state.ts";
import type { Host } from "./host.ts";

/** A text with the name of its file. */
export interface NamedText {
  readonly name: string;
  readonly text: string;
}

export interface Demo {
  readonly notebook: NamedText;
  readonly cases: NamedText;
}

/** Keeps what the page shows: takes the reader's acts and the host's news, and tells of changes. */
export class BookKeeper {
  state: BookState = closedBook;
  readonly host: Host;
  readonly #changed: () => void;

  constructor(host: Host, changed: () => void) {
    this.host = host;
    this.#changed = changed;
    host.listen((news) => this.#become(this.#afterNews(news)));
  }

  /** Fetches the words of the vocabulary and opens the demo. */
  async open(demo: Demo): Promise<void> {
    await this.#guarded(async () => {
      const { words } = await this.host.ask({ ask: "words" });
      this.#become({ ...this.state, words });
      await this.#change({ ask: "open notebook", ...demo.notebook });
      const bytes = new TextEncoder().encode(demo.cases.text);
      await this.#change({ ask: "open cases", name: demo.cases.name, bytes, invented: true });
    });
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
        return this.#change(act.request);
      case "open file":
        return this.#openFile(act.file);
      case "fold desk":
        return this.#become({ ...this.state, deskFolded: act.folded });
      case "darken":
        return this.#become({ ...this.state, dark: act.dark });
      case "put away":
        return this.#putAway(act.notice);
    }
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

  async #change(request: Request): Promise<void> {
    const reply = await this.host.ask(request);
    if (reply !== null && "done" in reply && !reply.done) {
      this.#become(withNotice(this.state, labels.notDone(request.ask), reply.problems));
      return;
    }
    if (request.ask === "rename cell") this.#choose(request.to);
    if (request.ask === "add cell") this.#choose(request.name);
    if (request.ask !== "open cases") {
      this.#become({ ...this.state, unsaved: request.ask !== "open notebook" });
    }
  }

  /** The notebook as a file; from now on it counts as saved. */
  async saved(): Promise<NamedText> {
    const file = await this.host.ask({ ask: "notebook text" });
    this.#become({ ...this.state, unsaved: false });
    return file;
  }

  async #openFile(file: File): Promise<void> {
    if (/\.(md|markdown)$/i.test(file.name)) {
      return this.#change({ ask: "open notebook", name: file.name, text: await file.text() });
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    return this.#change({ ask: "open cases", name: file.name, bytes });
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
