interface Drawn {
  readonly __data__?: { readonly datum?: { readonly pick?: unknown } };
}

/** Where the mark that opens `pick` is drawn, in pixels of the ground that it is drawn on. */
export function placeOfPick(
  ground: HTMLElement | null,
  pick: string,
): { readonly x: number; readonly y: number } | undefined {
  const marks = [...(ground?.querySelectorAll("svg line, svg path, svg rect") ?? [])];
  const mark = marks.find((each) => (each as Drawn).__data__?.datum?.pick === pick);
  if (ground === null || mark === undefined) return undefined;
  const box = mark.getBoundingClientRect();
  const origin = ground.getBoundingClientRect();
  return {
    x: (box.left + box.right) / 2 - origin.left + ground.scrollLeft,
    y: box.bottom - origin.top + ground.scrollTop,
  };
}
