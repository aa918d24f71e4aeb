import { css } from "lit";

/** The page as a whole: head, notices, the leaf that scrolls, and the desk at its foot. */
export const bookLook = css`
  :host {
    display: flex;
    flex-direction: column;
    height: 100dvh;
    overflow: hidden;
  }

  main {
    flex: 1;
    min-height: 0;
    overflow: auto;
    position: relative;
  }

  @media (max-width: 700px) {
    :host {
      display: block;
      overflow: auto;
    }

    main {
      overflow: visible;
      min-height: calc(100dvh - 240px);
    }

    sheet-desk {
      position: sticky;
      bottom: 0;
      z-index: 5;
    }
  }

  @media (display-mode: fullscreen) {
    book-header.meeting {
      display: none;
    }
  }

  @media print {
    :host {
      display: block;
      height: auto;
      overflow: visible;
    }

    book-tools,
    book-notices,
    book-header.meeting,
    sheet-desk {
      display: none;
    }

    main {
      overflow: visible;
    }
  }
`;
