import { css } from "lit";

export const meetingLook = css`
  :host {
    height: 100%;
  }

  /* The page takes the height that the foot leaves it; taller than that, it is scrolled. */
  .meeting {
    min-height: 100%;
    display: grid;
    grid-template: minmax(min-content, 1fr) auto / minmax(0, 1fr);
    outline-offset: -3px;
  }

  .pages {
    position: relative;
    display: grid;
    grid-template-columns: minmax(0, 1fr);
  }

  .pages > :not([shown]) {
    display: none;
  }

  /* About to be printed: laid out, so that their charts can be drawn. */
  :host([whole]) .pages > :not([shown]) {
    display: block;
    position: absolute;
    inset: 0;
    visibility: hidden;
    overflow: clip;
  }

  .bottom {
    position: sticky;
    bottom: 0;
    z-index: 2;
  }

  aside {
    border-top: 1px solid var(--hairline);
    background: var(--desk);
    padding: 10px 28px 14px;
    max-height: 40vh;
    overflow: auto;
  }

  aside h2 {
    font: 400 0.8125rem / 1.3 var(--sans);
    color: var(--ink-soft);
  }

  aside ol {
    columns: 300px;
    padding-left: 2.2em;
  }

  aside li {
    break-inside: avoid;
    padding-block: 2px;
  }

  aside li button {
    border: 0;
    text-align: left;
    padding: 2px 4px;
  }

  aside [aria-current] {
    font-weight: 600;
  }

  footer {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 6px 20px;
    padding: 10px 28px;
    border-top: 1px solid var(--hairline);
    color: var(--ink-soft);
    background: var(--paper);
  }

  .caution {
    flex: 1 1 320px;
    font-size: 0.8125rem;
  }

  .tools,
  .turn {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 10px;
  }

  .tools button[aria-pressed="true"],
  .tools button[aria-expanded="true"] {
    text-decoration-color: var(--ink);
    text-decoration-thickness: 2px;
    color: var(--ink);
  }

  @media (forced-colors: active) {
    .tools button[aria-pressed="true"],
    .tools button[aria-expanded="true"] {
      border-color: Highlight;
      border-width: 2px;
    }
  }

  .turn button {
    min-height: 32px;
    padding-inline: 16px;
  }

  .none {
    padding: 28px;
  }

  .black {
    position: fixed;
    inset: 0;
    z-index: 20;
    background: #000;
    forced-color-adjust: none;
    cursor: none;
  }

  @media (max-height: 32.5rem) {
    .bottom {
      position: static;
    }
  }

  @media (max-width: 43.75rem) {
    .large-only {
      display: none;
    }

    footer,
    aside {
      padding-inline: 16px;
    }

    .caution {
      display: none;
    }
  }

  @media print {
    footer,
    aside,
    .black {
      display: none;
    }

    .pages > *,
    .pages > :not([shown]) {
      display: block;
      position: static;
      visibility: visible;
    }

    .pages > * + * {
      break-before: page;
    }

    .meeting,
    .pages {
      display: block;
    }
  }
`;
