import type { NamedText } from "../host/book-keeper.ts";

/** Hands a text to the reader as a file; nothing is sent anywhere. */
export function downloadText(file: NamedText, type: string): void {
  const address = URL.createObjectURL(new Blob([file.text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = file.name;
  link.click();
  URL.revokeObjectURL(address);
}
