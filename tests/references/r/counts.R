# Poisson counts, observed over expected, Poisson-binomial, rate ratio. R 4.2.2 (stats), jsonlite 1.8.4.
# The Poisson-binomial probabilities are made by the Fourier transform of the characteristic function
# (Hong 2013), not by convolution; mid-P limits by uniroot.
library(jsonlite)
midP <- function(x, a) {
  up <- function(m) ppois(x - 1, m) + dpois(x, m) / 2 - a
  lo <- function(m) ppois(x, m, lower.tail = FALSE) + dpois(x, m) / 2 - a
  top <- qgamma(1 - a, x + 1)
  c(if (x == 0) 0 else uniroot(lo, c(0, top), tol = 1e-14)$root, uniroot(up, c(0, top), tol = 1e-14)$root)
}
limits <- list()
for (level in c(.9, .95, .998)) for (x in c(0:5, 10, 15, 20, 50, 100, 1500)) {
  a <- (1 - level) / 2; z <- qnorm(1 - a); y <- x + 1
  limits[[length(limits) + 1]] <- list(count = x, level = level,
    exact = as.vector(poisson.test(x, conf.level = level)$conf.int), midP = midP(x, a),
    byar = c(if (x == 0) 0 else x * max(0, 1 - 1 / (9 * x) - z / (3 * sqrt(x)))^3, y * (1 - 1 / (9 * y) + z / (3 * sqrt(y)))^3))
}
tests <- lapply(list(c(4, 3.3), c(10, 6.2), c(67, 13.8), c(137, 24.19893), c(0, 2.5), c(3, 3), c(1, 40), c(0, .01)), function(k)
  list(observed = k[1], expected = k[2], two = poisson.test(k[1], k[2])$p.value,
    less = ppois(k[1], k[2]), greater = ppois(k[1] - 1, k[2], lower.tail = FALSE),
    mid = min(1, 2 * min(ppois(k[1], k[2]), ppois(k[1] - 1, k[2], lower.tail = FALSE)) - dpois(k[1], k[2]))))
binom <- lapply(list(c(7, 40, .1), c(0, 12, .2), c(12, 12, .7), c(4, 10, .4), c(1, 300, .02)), function(k)
  list(x = k[1], n = k[2], p = k[3], two = binom.test(k[1], k[2], k[3])$p.value))
set.seed(20240501)
pb <- lapply(list(c(.05, .1, .3), round(runif(12, .01, .6), 3), round(rbeta(60, 2, 12), 4)), function(p) {
  n <- length(p); w <- 2 * pi * (0:n) / (n + 1)
  f <- sapply(w, function(u) prod(1 - p + p * exp(1i * u)))
  d <- Re(fft(f)) / (n + 1)
  list(risks = p, probabilities = d)
})
ratios <- lapply(list(c(11, 800, 21, 3011), c(0, 50, 4, 60), c(6, 30.5, 0, 20), c(30, 100, 30, 100)), function(k) {
  t <- poisson.test(k[c(1, 3)], k[c(2, 4)])
  list(first = k[1:2], second = k[3:4], ratio = unname(t$estimate), limits = as.vector(t$conf.int), p = t$p.value)
})
cat(toJSON(list(versions = list(R = as.character(getRversion())), limits = limits, tests = tests,
  binomial = binom, poissonBinomial = pb, ratios = ratios), auto_unbox = TRUE, digits = NA, pretty = TRUE))
