import { css } from "lit";

export const gridLook = css`
  .grid {
    /* Few rows need little room: theirs, the headings and a bar to scroll by. */
    height: clamp(150px, (var(--rows) + 1) * 1.6875rem + 20px, min(52vh, 520px));
    overflow: auto;
    border: 1px solid var(--hairline);
    background: var(--leaf);
    position: relative;
    contain: strict;
    scroll-padding: 1.6875rem 0 0 4.5rem;
    outline: none;
  }

  .row {
    position: relative;
    width: max(100%, var(--width));
    height: 1.6875rem;
    border-bottom: 1px solid var(--row-line);
  }

  .head {
    position: sticky;
    top: 0;
    z-index: 2;
    background: var(--desk);
    color: var(--ink-soft);
    border-bottom-color: var(--edge);
  }

  .all {
    position: relative;
    width: max(100%, var(--width));
  }

  .all .row {
    position: absolute;
    top: 0;
    left: 0;
  }

  .row > * {
    position: absolute;
    top: 0;
    height: calc(1.6875rem - 1px);
    padding: 3px 10px;
    line-height: calc(1.6875rem - 7px);
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
    cursor: cell;
  }

  .head > * {
    cursor: pointer;
  }

  .row > :first-child {
    position: sticky;
    left: 0;
    width: 4.5rem;
    background: var(--desk);
    color: var(--ink-soft);
    text-align: right;
    z-index: 1;
    cursor: default;
  }

  .row > :focus-visible {
    outline-offset: -2px;
  }

  .here {
    box-shadow: inset 0 0 0 1px var(--ink);
  }

  [aria-selected="true"] {
    background: var(--desk);
    box-shadow: inset 0 0 0 1px var(--edge-strong);
  }

  @media (forced-colors: active) {
    .here,
    [aria-selected="true"] {
      outline: 2px dashed Highlight;
      outline-offset: -2px;
    }
  }

  .queried {
    text-decoration: underline dotted var(--ink-soft) 2px;
    text-underline-offset: 3px;
  }

  .corrected {
    border-left: 3px solid var(--ink);
    padding-left: 7px;
    font-weight: 600;
  }
`;
