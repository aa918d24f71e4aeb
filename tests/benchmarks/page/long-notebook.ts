/** The text of a notebook of so many cells: eyes, a window, and questions that follow from both. */
export function longNotebook(cells: number): string {
  const questions = Array.from({ length: cells - 2 }, (_, i) => {
    const by = ["technique", "surgeon", "lens", "macula"][i % 4];
    const working =
      i % 3 === 1 ? `attachment_curve(eyes, by: ${by})` : `failure_rate(eyes, by: ${by})`;
    return `    rate_${i + 1} = ${i === 0 ? "failure_rate(eyes)" : working}\n`;
  });
  const front = "---\nholdfast: 1\ntitle: Long\n---\n";
  const window = "    window = choose([3 months, 6 months, 12 months], now: 12 months)\n";
  return [front, window, "    eyes = index_eyes(cases, within: window)\n", ...questions].join("\n");
}
