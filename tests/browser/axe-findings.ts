import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Finding {
  readonly id: string;
  readonly nodes: readonly { readonly target: unknown }[];
}

/**
 * What axe-core finds against WCAG 2.2 A and AA and its own best practices; the size of what is
 * pressed, which WCAG 2.2 brought, it looks at only where asked.
 */
export async function findings(page: Page): Promise<readonly string[]> {
  // The policy of the page lets no script in, so that axe comes by way of the debugger.
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(options: unknown): Promise<{ violations: readonly Finding[] }> };
    };
    return (await axe.run({ rules: { "target-size": { enabled: true } } })).violations;
  });
  return found.map(
    ({ id, nodes }) => `${id}: ${JSON.stringify(nodes.map(({ target }) => target))}`,
  );
}
