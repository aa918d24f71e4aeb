# Intervals for one proportion. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
cases <- list(c(81, 263), c(15, 148), c(0, 20), c(1, 29), c(29, 29), c(3, 1000), c(1, 1), c(0, 1))
one <- function(x, n, level) {
  a <- (1 - level) / 2
  mid <- function(x, n) if (x == 0) 0 else uniroot(function(p)
    pbinom(x, n, p, lower.tail = FALSE) + dbinom(x, n, p) / 2 - a, c(0, 1), tol = 1e-15)$root
  list(failed = x, total = n, level = level,
    wilson = as.vector(prop.test(x, n, conf.level = level, correct = FALSE)$conf.int),
    corrected = as.vector(prop.test(x, n, conf.level = level, correct = TRUE)$conf.int),
    exact = as.vector(binom.test(x, n, conf.level = level)$conf.int),
    midP = c(mid(x, n), 1 - mid(n - x, n)),
    jeffreys = c(if (x == 0) 0 else qbeta(a, x + .5, n - x + .5),
                 if (x == n) 1 else qbeta(1 - a, x + .5, n - x + .5)))
}
out <- list()
for (level in c(0.9, 0.95, 0.998)) for (k in cases)
  out[[length(out) + 1]] <- suppressWarnings(one(k[1], k[2], level))
cat(toJSON(list(versions = list(R = as.character(getRversion())), intervals = out),
  auto_unbox = TRUE, digits = NA, pretty = TRUE))
