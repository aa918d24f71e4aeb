import { css } from "lit";

/** A line over the sheet that stays in sight, and a panel that hangs from it. */
export const guideLook = css`
  :host {
    position: sticky;
    top: 0;
    z-index: 3;
    background: var(--paper);
    border-bottom: 1px solid var(--hairline);
  }

  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 10px;
    padding: 4px 28px;
    color: var(--ink-soft);
  }

  input {
    width: min(24ch, 100%);
    flex: 0 1 auto;
  }

  .panel {
    position: absolute;
    left: 28px;
    top: 100%;
    width: min(45rem, calc(100% - 56px));
    max-height: min(26.25rem, 50vh);
    overflow: auto;
    background: var(--leaf);
    border: 1px solid var(--edge-strong);
    padding: 6px 12px 10px;
  }

  .panel ul {
    list-style: none;
    padding: 0;
  }

  .panel li {
    border-bottom: 1px solid var(--row-line);
  }

  .panel li:last-child {
    border-bottom: 0;
  }

  .panel button {
    border: 0;
    padding: 5px 4px;
    text-align: left;
    overflow-wrap: anywhere;
  }

  .panel button:hover:not(:disabled) {
    background: var(--desk);
  }

  .panel [aria-current] {
    font-weight: 600;
  }

  .panel span {
    color: var(--ink-soft);
    font-size: 0.8125rem;
  }

  .level-3 {
    padding-left: 18px;
  }

  .level-4 {
    padding-left: 36px;
  }

  .excerpt {
    display: block;
  }

  mark {
    background: none;
    color: var(--ink);
    text-decoration: underline 2px;
    text-underline-offset: 3px;
  }

  @media (max-width: 43.75rem) {
    :host {
      position: static;
    }

    .bar {
      padding-inline: 16px;
    }

    .panel {
      position: static;
      width: auto;
      margin: 0 12px 8px;
    }
  }

  @media print {
    :host {
      display: none;
    }
  }
`;
