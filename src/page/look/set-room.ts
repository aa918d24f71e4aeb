import { darkPalette, type Palette, paperPalette } from "../../charts/palette.ts";

const shared = ["paper", "leaf", "ink", "muted", "hairline", "failed", "attached"] as const;

/** Colours the page like its charts, for a light or a darkened room. */
export function setRoom(dark: boolean, root: HTMLElement = document.documentElement): void {
  const palette: Palette = dark ? darkPalette : paperPalette;
  for (const name of shared) root.style.setProperty(`--${name}`, palette[name]);
  root.dataset.room = dark ? "dark" : "light";
}
