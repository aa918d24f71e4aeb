/** What the kernel offers: the inner loops of the regressions and of the risk-adjusted CUSUM. */
export {
  arrange,
  coefficients,
  columnAt,
  ends,
  offset,
  outcome,
  probability,
  product,
  residual,
  runSums,
  sums,
  variance,
  weight,
} from "./memory";
export { logisticRows } from "./logistic";
export { riskRows, sumRuns } from "./risk-sums";
export { addColumnProducts, addWeightedProduct } from "./weighted-product";
