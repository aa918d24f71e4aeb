/** Where a text is no well-formed XML, in words; undefined where it is (XML 1.0, fifth edition). */
export function faultOf(xml: string): string | undefined {
  const open: string[] = [];
  const rest = xml.replace(/^<\?xml[^>]*\?>\s*/, "");
  for (const [whole, tag] of rest.matchAll(/<([^>]*)>|[^<]+/g)) {
    if (tag === undefined) {
      if (strayAmpersand.test(whole)) return `a stray & in ${whole}`;
      if (open.length === 0 && whole.trim() !== "") return `text outside the root: ${whole}`;
      continue;
    }
    const [, closing, name = "", attributes = "", empty] = parts.exec(tag) ?? [];
    if (name === "") return `no tag: <${tag}>`;
    if (strayAmpersand.test(attributes)) return `a stray & in <${tag}>`;
    const names = [...attributes.matchAll(/\s([\w:.-]+)=/g)].map(([, each]) => each);
    if (new Set(names).size < names.length) return `an attribute twice in <${tag}>`;
    if (closing !== "" && open.pop() !== name) return `</${name}> closes nothing`;
    if (closing === "" && empty === "") open.push(name);
  }
  return open.length === 0 ? undefined : `${open.join(", ")} not closed`;
}

const strayAmpersand = /&(?!(amp|lt|gt|quot|apos|#\d+|#x[\da-fA-F]+);)/;
const parts = /^(\/?)([A-Za-z_][\w:.-]*)((?:\s+[\w:.-]+="[^"<]*")*)\s*(\/?)$/;
