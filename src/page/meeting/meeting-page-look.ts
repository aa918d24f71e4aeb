import { css } from "lit";

export const meetingPageLook = css`
  .page {
    max-width: 1180px;
    margin: 0 auto;
    padding: clamp(16px, 4vh, 48px) 28px;
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: clamp(12px, 2.4vh, 26px);
    --table-size: clamp(15px, 1.4vw, 20px);
    --mark-width: clamp(200px, 24vw, 380px);
    --caution-size: clamp(15px, 1.2vw, 18px);
  }

  h2 {
    font: 400 clamp(16px, 1.4vw, 20px) / 1.3 var(--sans);
    color: var(--ink-soft);
  }

  .brief {
    --sentence-size: var(--brief-size);
  }

  .rest {
    --sentence-size: clamp(16px, 1.35vw, 21px);
  }

  .told {
    color: var(--ink-soft);
    font-size: var(--caution-size);
  }

  .told.moved {
    color: var(--ink);
    border-left: 3px solid var(--ink);
    padding-left: 10px;
  }

  .keep {
    justify-self: start;
    min-height: 32px;
  }

  .on-paper {
    display: none;
    color: var(--ink-soft);
  }

  @media print {
    .page {
      padding: 0;
      --brief-size: 18pt !important;
    }

    .rest {
      --sentence-size: 12pt;
    }

    .keep {
      display: none;
    }

    .on-paper {
      display: block;
    }
  }
`;
