import { css } from "lit";

export const gridLook = css`
  .grid {
    height: min(46vh, 460px);
    overflow: auto;
    border: 1px solid var(--hairline);
    background: var(--leaf);
    position: relative;
    contain: strict;
  }

  .row {
    display: grid;
    grid-template-columns: var(--columns);
    width: max-content;
    min-width: 100%;
    height: 27px;
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
  }

  .all .row {
    position: absolute;
    top: 0;
    left: 0;
  }

  .row > * {
    padding: 3px 10px;
    line-height: 20px;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .row > :first-child {
    position: sticky;
    left: 0;
    background: var(--desk);
    color: var(--ink-soft);
    text-align: right;
    z-index: 1;
  }

  .row > :focus-visible {
    outline-offset: -2px;
  }
`;
