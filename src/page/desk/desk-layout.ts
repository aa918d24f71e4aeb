import { css } from "lit";

/** Three columns at the foot; below 1100 pixels two; on a telephone a sheet from the bottom. */
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

  .alone {
    padding: 16px 28px;
  }

  @media (max-width: 1100px) {
    .parts {
      height: 34vh;
    }

    .part {
      padding-inline: 16px;
    }
  }

  @media (max-width: 700px) {
    .parts {
      display: block;
      height: 58dvh;
      overflow: auto;
    }

    .part {
      border-left: 0;
      border-bottom: 1px solid var(--hairline);
      overflow: visible;
    }
  }
`;
