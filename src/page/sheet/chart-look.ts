import { css } from "lit";

export const chartLook = css`
  /* Of about the height that it will have, until it is drawn. */
  .drawing:empty {
    min-height: 240px;
  }

  .ground {
    max-width: 100%;
    overflow-x: auto;
    position: relative;
  }

  /* Drawn in colours that were chosen together, on their own paper, whatever the reader's are. */
  @media (forced-colors: active) {
    .ground {
      forced-color-adjust: none;
      background: var(--paper);
      color: var(--ink);
    }
  }

  .ground:focus-visible {
    outline-offset: -2px;
  }

  .ground svg {
    display: block;
    height: auto;
  }

  .mark {
    position: absolute;
    width: 15px;
    height: 15px;
    margin: -7.5px 0 0 -7.5px;
    border: 2px solid var(--ink);
    border-radius: 50%;
    pointer-events: none;
  }

  .said {
    color: var(--ink-soft);
    font-size: 0.84375rem;
  }

  :host([fits]) {
    height: 100%;
  }

  /* Drawn into a given height: what is told of a point lies over its foot. */
  :host([fits]) .ground {
    max-height: 100%;
    overflow: auto;
  }

  :host([fits]) .said:not(:empty) {
    position: absolute;
    inset: auto 0 0;
    padding: 4px 10px;
    background: var(--desk);
    color: var(--ink);
    font-size: inherit;
  }

  .more {
    color: var(--ink-soft);
  }

  @media print {
    :host([fits]) {
      height: auto;
    }

    .ground {
      break-inside: avoid;
    }

    .ground svg {
      max-width: 100%;
      max-height: 105mm;
    }

    .said,
    .mark {
      display: none;
    }

    /* Drawn for a darkened room, printed on white paper. */
    :host([dark]) .ground svg {
      filter: invert(1) hue-rotate(180deg);
    }
  }
`;
