import type { Page } from "playwright-core";

/** Lets a file that is no text fall on the page. */
export async function dropBytes(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  const encoded = Buffer.from(bytes).toString("base64");
  const data = await page.evaluateHandle(
    async ([fileName, content]) => {
      const signs = Uint8Array.from(atob(content), (sign) => sign.charCodeAt(0));
      const transfer = new DataTransfer();
      transfer.items.add(new File([signs], fileName));
      return transfer;
    },
    [name, encoded] as const,
  );
  await page.dispatchEvent("holdfast-book", "drop", { dataTransfer: data });
}
