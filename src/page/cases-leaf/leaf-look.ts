import { css } from "lit";

export const leafLook = css`
  .leaf {
    display: grid;
    grid-template-columns: minmax(0, 7fr) minmax(0, 3fr);
    gap: 22px 36px;
    padding: 18px 28px 28px;
  }

  section {
    min-width: 0;
  }

  .halves {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 22px 36px;
    align-items: start;
    border-top: 1px solid var(--hairline);
    padding-top: 16px;
  }

  .side {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 22px;
    align-content: start;
    min-width: 0;
  }

  h2 {
    font: 600 1.125rem / 1.3 var(--serif);
    margin-bottom: 6px;
  }

  .across {
    grid-column: 1 / -1;
  }

  rows-tools {
    margin-bottom: 8px;
  }

  .under {
    display: flex;
    flex-wrap: wrap;
    gap: 2px 18px;
    align-items: baseline;
    min-height: 28px;
    padding-top: 4px;
    color: var(--ink-soft);
  }

  .asked {
    display: flex;
    flex-wrap: wrap;
    gap: 2px 12px;
    align-items: baseline;
    margin-bottom: 8px;
    color: var(--caution);
  }

  .behind {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 14px;
    align-items: baseline;
    margin-bottom: 8px;
    padding: 5px 10px;
    border-left: 4px solid var(--ink);
    background: var(--leaf);
  }

  .none {
    display: grid;
    gap: 14px;
    max-width: 720px;
    padding: 28px;
  }

  @media (max-width: 68.75rem) {
    .leaf,
    .halves {
      grid-template-columns: minmax(0, 1fr);
    }
  }

  @media (max-width: 43.75rem) {
    .leaf,
    .none {
      padding-inline: 16px;
    }
  }
`;
