import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { roomButton } from "../book/room-button.ts";
import { isWriting } from "../book/undo-keys.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import "../sheet/prose-block.ts";
import { FullScreen } from "./full-screen.ts";
import {
  type Mask,
  maskOfBook,
  peopleHidden,
  withoutPeople,
  workingsBehind,
} from "./hide-people.ts";
import "./meeting-actions.ts";
import "./meeting-clock.ts";
import { meetingLook } from "./meeting-look.ts";
import "./meeting-page.ts";
import { actionsIn, type Finding, findingsOf, minutesPlanned } from "./meeting-pages.ts";

const forward = ["ArrowRight", "PageDown", " "];
const backward = ["ArrowLeft", "PageUp"];

/**
 * The meeting: one finding a page, in large type, then the actions agreed. Arrow and page keys, and
 * so a remote, turn the pages; B or the full stop blackens the page.
 */
@customElement("meeting-leaf")
export class MeetingLeaf extends LitElement {
  static override styles = [base, buttons, meetingLook];

  @property({ attribute: false }) book: BookState = closedBook;
  @query(".meeting") private readonly meeting!: HTMLElement | null;
  @query(".black") private readonly blackPage!: HTMLElement | null;
  @state() private page = 0;
  @state() private aside: "pages" | "notes" | undefined;
  @state() private black = false;
  readonly #fullScreen = new FullScreen(this);

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener("keydown", this.#turnByKey);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    window.removeEventListener("keydown", this.#turnByKey);
  }

  override render(): TemplateResult {
    const findings = this.#findings();
    if (findings.length === 0) return html`<p class="none">${labels.nothingToMeet}</p>`;
    const at = this.#at(findings);
    return html`<section
      class="meeting"
      tabindex="0"
      aria-label=${labels.meetingName}
      @keydown=${(event: KeyboardEvent) => this.#sign(event)}
    >
      <div class="pages">
        ${findings.map((finding, i) => this.#page(finding, i === at))}
        <meeting-actions
          ?shown=${at === findings.length}
          .actions=${actionsIn(this.book.notebook?.blocks ?? [])}
          .people=${peopleHidden(this.book)}
        ></meeting-actions>
      </div>
      <div class="bottom">
        ${this.#beside(findings, at)} ${this.#foot(findings, at)}
      </div>
      ${this.black ? this.#blackness() : nothing}
    </section>`;
  }

  protected override firstUpdated(): void {
    this.meeting?.focus();
  }

  protected override updated(): void {
    this.blackPage?.focus();
  }

  /** All pages are there, so that all can be printed; the one that is turned to can be seen. */
  #page({ view }: Finding, shown: boolean): TemplateResult | typeof nothing {
    if (view.answer === undefined) return nothing;
    const people = peopleHidden(this.book);
    return html`<meeting-page
      ?shown=${shown}
      .view=${view}
      .answer=${withoutPeople(view.answer, workingsBehind(view.name, this.book.cells), people)}
      .mask=${this.#mask()}
      .dark=${this.book.dark}
    ></meeting-page>`;
  }

  #beside(findings: readonly Finding[], at: number): TemplateResult | typeof nothing {
    if (this.aside === undefined) return nothing;
    if (this.aside === "pages") return this.#list(findings, at);
    const notes = findings[at]?.notes ?? [];
    return html`<aside id="beside" aria-label=${labels.notesName}>
      <h2>${labels.notes}</h2>
      ${
        notes.length === 0
          ? html`<p>${at < findings.length ? labels.noNotes : labels.noNotesOfActions}</p>`
          : notes.map((text) => html`<prose-block .text=${this.#mask()(text)}></prose-block>`)
      }
    </aside>`;
  }

  #list(findings: readonly Finding[], at: number): TemplateResult {
    const texts = [
      ...findings.map(({ view, section }) => `${section || view.answer?.asks} (${view.name})`),
      labels.actionsPage,
    ];
    return html`<aside id="beside" aria-label=${labels.pagesName}>
      <ol>
        ${texts.map(
          (text, i) => html`<li>
            <button
              aria-current=${i === at ? "page" : nothing}
              @click=${() => {
                this.page = i;
              }}
            >
              ${this.#mask()(text)}
            </button>
          </li>`,
        )}
      </ol>
    </aside>`;
  }

  #foot(findings: readonly Finding[], at: number): TemplateResult {
    const count = findings.length + 1;
    const cautions = findings[at]?.view.answer?.cautions ?? [];
    const isOfPeople = cautions.some(({ code }) => code === "comparing-people");
    return html`<footer>
      <p class="caution">${labels.caution}${isOfPeople ? ` ${labels.cautionOfPeople}` : ""}</p>
      <div class="tools">
        ${this.#asideButton("pages", labels.pages)} ${this.#asideButton("notes", labels.notes)}
        <button
          class="words"
          aria-pressed=${this.book.codesShown}
          title=${labels.hideCodesTitle}
          @click=${() => send(this, { act: "show codes", shown: !this.book.codesShown })}
        >
          ${labels.codes}
        </button>
        <span class="large-only">
          <button class="words" title=${labels.blackPageTitle} @click=${() => this.#blacken()}>
            ${labels.blackPage}
          </button>
          <button class="words" @click=${() => this.#fullScreen.toggle()}>
            ${this.#fullScreen.on ? labels.leaveFullScreen : labels.fullScreen}
          </button>
          <button class="words" @click=${() => send(this, { act: "print" })}>${labels.print}</button>
          ${roomButton(this, this.book.dark)}
        </span>
      </div>
      <div class="turn">
        <meeting-clock
          .page=${findings[at]?.view.name ?? ""}
          .planned=${minutesPlanned(findings[at]?.section ?? "")}
        ></meeting-clock>
        <button aria-disabled=${at === 0} @click=${() => this.#turn(-1)}>${labels.back}</button>
        <span aria-live="polite">${labels.pageOf(at + 1, count)}</span>
        <button aria-disabled=${at === count - 1} @click=${() => this.#turn(1)}>
          ${labels.next}
        </button>
      </div>
    </footer>`;
  }

  #asideButton(of: "pages" | "notes", text: string): TemplateResult {
    return html`<button
      class="words"
      aria-expanded=${this.aside === of}
      @click=${() => {
        this.aside = this.aside === of ? undefined : of;
      }}
    >
      ${text}
    </button>`;
  }

  #blackness(): TemplateResult {
    return html`<div
      class="black"
      tabindex="0"
      role="img"
      aria-label=${labels.blackPageName}
      @click=${() => this.#lighten()}
    ></div>`;
  }

  /** What of the room's texts is made of codes, whoever wrote them. */
  #mask(): Mask {
    return maskOfBook(this.book);
  }

  #findings(): readonly Finding[] {
    return findingsOf(this.book.notebook, this.book.cells);
  }

  #at(findings: readonly Finding[]): number {
    return Math.min(this.page, findings.length);
  }

  #blacken(): void {
    this.black = true;
  }

  #lighten(): void {
    this.black = false;
    this.meeting?.focus();
  }

  /** Signs of one letter count only while the keyboard is on the meeting itself. */
  #sign(event: KeyboardEvent): void {
    if (this.black) {
      this.#lighten();
    } else {
      const plain = !(event.ctrlKey || event.altKey || event.metaKey) && !isWriting(event);
      if (!plain || !["b", "."].includes(event.key.toLowerCase())) return;
      this.#blacken();
    }
    event.preventDefault();
    event.stopPropagation();
  }

  /** Whatever has the keyboard: a remote sends page keys to the window. */
  readonly #turnByKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || isWriting(event) || this.#isPressing(event)) return;
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (forward.includes(event.key)) this.#turn(1);
    else if (backward.includes(event.key)) this.#turn(-1);
    else if (event.key === "Home") this.page = 0;
    else if (event.key === "End") this.page = this.#findings().length;
    else return;
    event.preventDefault();
  };

  /** The space bar presses a button. */
  #isPressing(event: KeyboardEvent): boolean {
    return event.key === " " && event.composedPath()[0] instanceof HTMLButtonElement;
  }

  #turn(by: number): void {
    const findings = this.#findings();
    this.page = Math.min(Math.max(this.#at(findings) + by, 0), findings.length);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-leaf": MeetingLeaf;
  }
}
