import { css } from "lit";

export const meetingPageLook = css`
  /* Nothing on the page is smaller than this. */
  :host {
    --read: clamp(1.25rem, 1.4vw, 2rem);
    --table-size: var(--read);
    --heading-share: 1;
    --mark-width: clamp(200px, 20vw, 380px);
    --caution-size: var(--read);
    display: grid;
    font-size: var(--read);
    line-height: 1.35;
  }

  .page {
    display: grid;
    grid-template: auto auto minmax(260px, 1fr) auto / minmax(0, 1fr);
    grid-template-areas: "asks" "brief" "stage" "foot";
    gap: clamp(6px, 1.3vh, 16px) 40px;
    padding: clamp(10px, 2vh, 28px) 28px clamp(6px, 1.2vh, 16px);
    --brief-size: clamp(1.5rem, 2.3vw, 3.25rem);
  }

  .middling {
    --brief-size: clamp(1.375rem, 2vw, 2.75rem);
  }

  .long {
    --brief-size: clamp(1.25rem, 1.65vw, 2.25rem);
  }

  .beside {
    grid-template-columns: minmax(0, 4fr) minmax(0, 9fr);
    grid-template-rows: auto minmax(260px, 1fr) auto;
    grid-template-areas: "asks stage" "brief stage" "foot foot";
  }

  h2 {
    grid-area: asks;
    font: 400 var(--read) / 1.3 var(--sans);
    color: var(--ink-soft);
  }

  .brief {
    grid-area: brief;
    --sentence-size: var(--brief-size);
    --rest-share: 1;
  }

  .whole {
    --sentence-size: var(--read);
    --rest-share: 1;
  }

  /* As high as the page leaves it, whatever stands in it. */
  .stage {
    grid-area: stage;
    contain: size;
    position: relative;
  }

  .foot {
    grid-area: foot;
    position: relative;
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 28px;
    color: var(--ink-soft);
  }

  summary {
    cursor: pointer;
    min-height: 32px;
    color: var(--caution);
    text-decoration: underline;
    text-decoration-color: var(--edge-strong);
    text-underline-offset: 4px;
  }

  .opened {
    position: absolute;
    inset: auto -28px 100%;
    z-index: 1;
    max-height: 60vh;
    overflow: auto;
    padding: 14px 28px;
    background: var(--desk);
    border-top: 1px solid var(--edge);
    color: var(--ink);
  }

  .moved summary {
    color: var(--ink);
    font-weight: 600;
  }

  .keep {
    min-height: 36px;
    font-size: inherit;
    margin-left: auto;
  }

  .on-paper {
    display: none;
  }

  @media (max-width: 43.75rem), (max-height: 32.5rem) {
    :host {
      --read: 1rem;
    }

    .page,
    .beside {
      grid-template: none;
      grid-template-columns: minmax(0, 1fr);
      grid-template-areas: none;
      padding-inline: 16px;
    }

    .page > * {
      grid-area: auto;
    }

    .stage {
      contain: none;
    }

    .opened {
      position: static;
      max-height: none;
      margin-inline: -16px;
      padding-inline: 16px;
    }

    .keep {
      margin-left: 0;
    }
  }

  @media print {
    :host {
      --read: 11pt;
    }

    .page,
    .beside {
      display: block;
      padding: 0;
      --brief-size: 18pt;
    }

    .page > * {
      margin-bottom: 8pt;
    }

    .stage {
      contain: none;
    }

    .foot {
      display: none;
    }

    .on-paper {
      display: grid;
      gap: 6pt;
      color: var(--ink-soft);
    }
  }
`;
