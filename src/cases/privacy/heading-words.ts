/**
 * The words of a heading, in lower case and without accents: parted at signs, between letters and
 * digits, and where a capital begins a word. `NHS no. (10 digits)`, `homeAddress1`, `GPName`.
 */
export function headingWords(heading: string): readonly string[] {
  const parted = heading
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .replaceAll("\u00df", "ss")
    .replaceAll(/[\u00d8\u00f8]/g, "o")
    .replaceAll(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .replaceAll(/(\p{Lu})(\p{Lu}\p{Ll})/gu, "$1 $2")
    .toLowerCase();
  return parted.match(/\p{L}+|\d+/gu) ?? [];
}
