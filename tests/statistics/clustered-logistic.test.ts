/**
 * The clustered sandwich of logistic regression beside R's sandwich package, run live where R has it;
 * elsewhere only the stored numbers of `references/r/logistic.R`, which writes the sandwich out, are compared.
 */
import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import { expectClose } from "./close-to.ts";
import { readNumbers } from "./reference-data.ts";

const script = `
bw <- read.csv("tests/references/data/birthwt.csv")
id <- (seq_len(nrow(bw)) - 1) %/% 2
fit <- glm(low ~ age + lwt + smoke, binomial, bw, control = glm.control(epsilon = 1e-14))
cat(format(sqrt(diag(sandwich::vcovCL(fit, id, type = "HC0", cadjust = FALSE))), digits = 15))`;

const run = (code: string) => spawnSync("Rscript", ["--vanilla", "-e", code], { encoding: "utf8" });
const hasSandwich = run("stopifnot(requireNamespace('sandwich', quietly = TRUE))").status === 0;

describe.skipIf(!hasSandwich)("the clustered sandwich", () => {
  it("of a logistic regression is that of R's sandwich package", () => {
    const { low, age, lwt, smoke } = readNumbers("birthwt.csv");
    const fit = logisticRegression({
      outcome: low!,
      covariates: [age!, lwt!, smoke!],
      cluster: Int32Array.from(low!, (_, i) => i >> 1),
    });
    const { status, stdout, stderr } = run(script);
    expect(status, stderr).toBe(0);
    const errors = stdout.trim().split(/\s+/).map(Number);
    expect(errors).toHaveLength(4);
    expectClose(
      fit.coefficients.map((c) => c.robustStandardError),
      errors,
      1e-7,
    );
  });
});
