import { css } from "lit";

/** Lists, tables and lines of buttons in the sections of the leaf. */
export const sectionLook = css`
  .scroll {
    overflow: auto;
    max-height: 420px;
    border-block: 1px solid var(--hairline);
  }

  table {
    border-collapse: collapse;
    width: 100%;
  }

  th,
  td {
    text-align: left;
    font-weight: 400;
    padding: 3px 16px 3px 0;
    border-bottom: 1px solid var(--row-line);
    vertical-align: baseline;
    overflow-wrap: anywhere;
    /* Words break only where they are longer than this. */
    min-width: 74px;
  }

  .number,
  td:empty {
    min-width: 0;
  }

  thead th {
    color: var(--ink-soft);
    font-size: 0.78125rem;
    white-space: nowrap;
  }

  h3 {
    font: 600 0.875rem / 1.4 var(--sans);
    margin-top: 10px;
  }

  .number {
    text-align: right;
  }

  .quiet {
    color: var(--ink-soft);
    font-size: 0.8125rem;
  }

  .caution {
    color: var(--caution);
  }

  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 8px;
    align-items: center;
    margin-top: 8px;
  }

  ul {
    padding: 0;
    list-style: none;
  }

  @media (max-width: 43.75rem) {
    .large-only {
      display: none !important;
    }
  }
`;
