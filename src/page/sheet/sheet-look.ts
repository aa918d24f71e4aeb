import { css } from "lit";

/** Rows of cells side by side, with hairlines between neighbours. */
export const sheetLook = css`
  .sheet {
    padding: 0 16px 28px;
    position: relative;
  }

  .row {
    display: grid;
    grid-template-columns: var(--widths);
    border-bottom: 1px solid var(--hairline);
    overflow: clip;
    scroll-margin-top: 2.75rem;
  }

  /* Rows of a long sheet are laid out and drawn only when they come near the window. */
  .long .row {
    content-visibility: auto;
    contain-intrinsic-size: auto 240px;
  }

  :host([whole]) .long .row {
    content-visibility: visible;
  }

  .row > sheet-cell:focus-visible {
    outline-offset: -2px;
  }

  prose-block,
  pre {
    padding-inline: 12px;
  }

  prose-block,
  sheet-cell {
    scroll-margin-top: 2.75rem;
  }

  /* Lines between neighbours, however they wrap: the row cuts off those at its own edges. */
  sheet-cell {
    box-shadow:
      -1px 0 0 var(--hairline),
      0 -1px 0 var(--hairline);
  }

  prose-block + .row {
    border-top: 1px solid var(--hairline);
  }

  pre {
    font: 0.8125rem / 1.4 var(--fixed);
    white-space: pre-wrap;
  }

  .caution {
    padding: 18px 12px 0;
    color: var(--ink-soft);
  }

  .drop {
    position: fixed;
    background: var(--ink);
    z-index: 4;
    pointer-events: none;
  }

  @media (max-width: 68.75rem) {
    .row {
      grid-template-columns: repeat(auto-fit, minmax(min(100%, 26.25rem), 1fr));
    }
  }

  @media (max-width: 43.75rem) {
    .sheet {
      padding-inline: 4px;
    }
  }

  @media (forced-colors: active) {
    .drop {
      forced-color-adjust: none;
      background: Highlight;
    }
  }

  @media print {
    .sheet {
      padding: 0;
    }

    .long .row {
      content-visibility: visible;
    }

    /* One under the other: paper is narrow, and an answer stays whole, with what leads up to it. */
    .row {
      display: block;
      overflow: visible;
    }

    sheet-cell {
      break-inside: avoid;
      box-shadow: none;
    }

    prose-block + .row,
    prose-block + prose-block {
      break-before: avoid;
    }

    prose-block {
      orphans: 3;
      widows: 3;
    }
  }
`;
