import { css } from "lit";

/** Three columns at the foot; in a narrower window two; on a telephone a sheet from the bottom. */
export const deskLayout = css`
  .desk {
    position: relative;
  }

  .parts {
    display: grid;
    grid-template-columns: minmax(0, 4fr) minmax(0, 4.3fr) minmax(0, 4fr);
    height: clamp(190px, 27vh, 330px);
  }

  .part {
    padding: 12px 28px 16px;
    overflow: auto;
    border-left: 1px solid var(--hairline);
    display: grid;
    align-content: start;
    gap: 8px;
  }

  .part:first-child {
    border-left: 0;
  }

  eyes-behind {
    scroll-margin-top: 12px;
  }

  .alone {
    padding: 16px 28px;
  }

  @media (max-width: 68.75rem) {
    .parts {
      height: 34vh;
    }

    .part {
      padding-inline: 16px;
    }
  }

  @media (max-width: 56.25rem) {
    .parts {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
      overflow: auto;
    }

    .part {
      overflow: visible;
    }

    .part:last-child {
      grid-column: 1 / -1;
      border-left: 0;
      border-top: 1px solid var(--hairline);
    }
  }

  @media (max-width: 43.75rem), (max-height: 32.5rem) {
    .parts {
      height: 50dvh;
    }
  }

  @media (max-width: 43.75rem) {
    .parts {
      display: block;
      height: 58dvh;
    }

    .part {
      border-left: 0;
      border-bottom: 1px solid var(--hairline);
    }
  }
`;
