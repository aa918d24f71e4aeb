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

  /* Narrow, or short as at 200%: all of it scrolls, so that nothing is squeezed. */
  @media (max-width: 43.75rem), (max-height: 32.5rem) {
    :host {
      display: block;
      overflow: auto;
      /* What has the keyboard is not scrolled under what stays in sight. */
      scroll-padding: 3rem 0 7rem;
    }

    :host([desk-open]) {
      scroll-padding-bottom: 62dvh;
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
