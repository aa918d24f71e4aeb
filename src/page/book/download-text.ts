import type { NamedText } from "../host/named-text.ts";

/** Hands a text to the reader as a file; nothing is sent anywhere. */
export function downloadText(file: NamedText, type: string): void {
  download(file.name, new Blob([file.text], { type }));
}

/** Hands a file to the reader. */
export function download(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}
