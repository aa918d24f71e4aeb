/** A text with the name of its file. */
export interface NamedText {
  readonly name: string;
  readonly text: string;
}
