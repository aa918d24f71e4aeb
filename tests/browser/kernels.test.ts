import { expect, it } from "vitest";
import { kernelBytes } from "../../src/statistics/kernels/kernel-bytes.ts";
import { withPage } from "./with-page.ts";

const open = withPage();

/** Runs the compiled loops over invented rows; text, so that a worker can be made of it. */
const probe = `(text) => {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
  const rows = Math.min(500, exports.arrange(3));
  const area = (address, length) => new Float64Array(exports.memory.buffer, address, length);
  for (let c = 0; c < 3; c++) {
    area(exports.columnAt(c), rows).forEach((_, i, column) => {
      column[i] = ((i * 37 + c * 11) % 101) / 17 - 3;
    });
  }
  area(exports.coefficients.value, 3).set([0.3, -1.7, 0.45]);
  area(exports.weight.value, rows).fill(1);
  area(exports.outcome.value, rows).forEach((_, i, outcome) => { outcome[i] = i % 2; });
  const logLikelihood = exports.logisticRows(rows);
  exports.addColumnProducts(rows);
  exports.addWeightedProduct(rows, exports.weight.value);
  exports.riskRows(rows);
  const filled = ["probability", "variance", "residual"].map((name) => exports[name].value);
  return [
    logLikelihood,
    ...area(exports.sums.value, 3),
    ...area(exports.product.value, 9),
    ...filled.flatMap((address) => [...area(address, rows)]),
  ];
}`;

const run = new Function(`return (${probe})`)() as (text: string) => number[];

it("the compiled loops run in the page and its workers, to the same digits as in Node", async () => {
  const { page } = await open();
  const expected = run(kernelBytes);
  expect(expected.every(Number.isFinite)).toBe(true);
  expect(new Set(expected).size).toBeGreaterThan(100);
  const call = `(${probe})(${JSON.stringify(kernelBytes)})`;
  expect(await page.evaluate(later(call))).toEqual(expected);
  const inWorker = await page.evaluate(
    ({ text, code }) =>
      new Promise((resolve, reject) => {
        const body = `postMessage((${code})(${JSON.stringify(text)}))`;
        const worker = new Worker(URL.createObjectURL(new Blob([body])));
        worker.onmessage = ({ data }) => resolve(data);
        worker.onerror = ({ message }) => reject(new Error(message));
      }),
    { text: kernelBytes, code: probe },
  );
  expect(inWorker).toEqual(expected);
});

it("text is not evaluated in the page for all that", async () => {
  const { page, complaints } = await open();
  await expect(page.evaluate(later("Function('return 1')()"))).rejects.toThrow("EvalError");
  expect(complaints.splice(0).filter((text) => !text.includes("Content Security"))).toEqual([]);
});

/** The value of an expression of the page's own: what is asked from outside is not under its policy. */
function later(expression: string): string {
  return `new Promise((resolve, reject) => setTimeout(() => {
    try { resolve(${expression}); } catch (refusal) { reject(refusal); }
  }))`;
}
