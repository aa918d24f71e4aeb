/** When what stands now has been painted; at once where the page is hidden and nothing is. */
export function painted(): Promise<void> {
  if (document.hidden) return Promise.resolve();
  return new Promise((go) => requestAnimationFrame(() => setTimeout(go)));
}
