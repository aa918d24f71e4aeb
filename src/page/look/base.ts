import { css } from "lit";

/** What every element of the page shares: boxes, focus, buttons, fields, hidden text. */
export const base = css`
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }

  :host {
    display: block;
  }

  :host([hidden]),
  [hidden] {
    display: none !important;
  }

  :focus-visible {
    outline: 2px solid var(--ink);
    outline-offset: 2px;
  }

  h1,
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd {
    margin: 0;
  }

  .heard-only {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: clip;
    clip-path: inset(50%);
    white-space: nowrap;
  }

  @media (prefers-reduced-motion: no-preference) {
    button,
    a {
      transition: background-color 120ms;
    }
  }
`;

/** Buttons of three weights: framed, plain words, and a number that opens. */
export const buttons = css`
  button {
    font: inherit;
    color: inherit;
    background: none;
    border: 1px solid var(--edge);
    border-radius: 2px;
    padding: 3px 10px;
    min-height: 26px;
    cursor: pointer;
  }

  button:hover:not(:disabled, [aria-disabled="true"]) {
    background: var(--leaf);
  }

  /* What does nothing for now may keep the keyboard: then it is not disabled but says so. */
  :is(button:disabled, button[aria-disabled="true"]) {
    color: var(--margin-note);
    border-style: dashed;
    cursor: default;
  }

  button.first {
    background: var(--ink);
    border-color: var(--ink);
    color: var(--paper);
  }

  button.first:hover:not(:disabled) {
    background: var(--ink-soft);
  }

  button.words {
    border-color: transparent;
    padding-inline: 4px;
    text-decoration: underline;
    text-decoration-color: var(--edge-strong);
    text-underline-offset: 3px;
  }

  /* What has no frame gets none where nothing is transparent. */
  @media (forced-colors: active) {
    button.words {
      border-color: Canvas;
    }

    button[aria-disabled="true"] {
      border-color: GrayText;
      color: GrayText;
    }
  }

  button.opens {
    display: inline;
    border: 0;
    padding: 0;
    min-height: 0;
    border-radius: 0;
    text-decoration: underline dotted var(--edge-strong);
    text-decoration-thickness: 1.5px;
    text-underline-offset: 4px;
  }

  button.opens:hover {
    background: none;
    text-decoration-style: solid;
  }

  button.opens[aria-pressed="true"] {
    text-decoration: underline solid 2px;
  }
`;

/** Text fields and lists of choices, the same on the desk, the sheet and in dialogues. */
export const fields = css`
  input,
  select,
  textarea {
    font: inherit;
    color: inherit;
    background: var(--leaf);
    border: 1px solid var(--edge-strong);
    border-radius: 2px;
    padding: 2px 9px;
    min-height: 26px;
    min-width: 0;
  }

  select {
    padding-right: 4px;
  }

  label {
    color: var(--ink-soft);
  }
`;
