import { css } from "lit";

/** A dialog over the page, with choices that have a meaning each. */
export const dialogLook = css`
  dialog {
    width: min(47.5rem, calc(100vw - 32px));
    max-height: min(40rem, calc(100dvh - 48px));
    padding: 0;
    background: var(--leaf);
    color: var(--ink);
    border: 1px solid var(--edge-strong);
    border-radius: 3px;
  }

  dialog::backdrop {
    background: rgb(29 39 51 / 35%);
  }

  form {
    display: grid;
    gap: 12px;
    padding: 20px 24px;
  }

  h2 {
    font: 600 1.25rem / 1.2 var(--serif);
  }

  .quiet {
    color: var(--ink-soft);
  }

  .choices {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 20rem), 1fr));
    gap: 0 24px;
  }

  .choices button {
    text-align: left;
    border: 0;
    border-bottom: 1px solid var(--row-line);
    border-radius: 0;
    padding: 8px 6px;
    text-decoration: none;
  }

  .choices button:hover {
    background: var(--desk);
  }

  .choices strong {
    display: block;
    font: 400 1.0625rem / 1.3 var(--serif);
  }

  .choices span {
    color: var(--ink-soft);
    font-size: 0.8125rem;
  }

  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
`;
