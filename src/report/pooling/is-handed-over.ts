/** Whether a column may group the eyes that are handed over: nothing that names people, no text. */
export function isHandedOver({
  name,
  kind,
}: {
  readonly name: string;
  readonly kind: string;
}): boolean {
  const isCoded = kind === "code" || kind === "truth";
  return isCoded && !/surgeon|supervis|patient|case/.test(name);
}
