# Beta-binomial model, shrinkage, intra-class correlation, ranks. R 4.2.2 (stats), jsonlite 1.8.4.
# The maximum is found from digamma scores by nested uniroot, the ranks by integrate().
library(jsonlite)
ll <- function(a, b, x, n) sum(lchoose(n, x) + lbeta(a + x, b + n - x) - lbeta(a, b))
fit <- function(x, n) {
  g <- function(m, s) { a <- m * s; b <- (1 - m) * s
    c(sum(digamma(a + x) - digamma(a)), sum(digamma(b + n - x) - digamma(b)), sum(digamma(a + b + n) - digamma(a + b))) }
  mean_at <- function(s) uniroot(function(m) { k <- g(m, s); k[1] - k[2] }, c(1e-8, 1 - 1e-8), tol = 1e-16)$root
  ls <- uniroot(function(u) { s <- exp(u); m <- mean_at(s); k <- g(m, s); m * k[1] + (1 - m) * k[2] - k[3] }, c(-2, 12), tol = 1e-14)$root
  s <- exp(ls); m <- mean_at(s); p <- sum(x) / sum(n)
  most <- ll(m * s, (1 - m) * s, x, n); least <- sum(dbinom(x, n, p, log = TRUE))
  list(mean = m, intraclass = 1 / (s + 1), alpha = m * s, beta = (1 - m) * s, logLik = most, binomial = least,
    pValue = pchisq(2 * (most - least), 1, lower.tail = FALSE) / 2)
}
anova_icc <- function(x, n) {
  y <- unlist(Map(function(a, b) c(rep(1, a), rep(0, b - a)), x, n)); g <- factor(rep(seq_along(n), n))
  ms <- summary(aov(y ~ g))[[1]][["Mean Sq"]]; N <- sum(n); m <- (N - sum(n^2) / N) / (length(n) - 1)
  (ms[1] - ms[2]) / (ms[1] + (m - 1) * ms[2])
}
kleinman <- function(x, n) { p <- sum(x) / sum(n); k <- length(n); S <- sum(n * (x / n - p)^2)
  (S / (p * (1 - p)) - (k - 1)) / (sum(n * (1 - n / sum(n))) - (k - 1)) }
s <- read.csv("data/surgical12.csv"); r <- read.csv("data/rat_tumours.csv"); e <- read.csv("data/retinopathy.csv")
pair <- aggregate(status ~ id, e, sum)$status
fs <- fit(s$deaths, s$n)
a <- fs$alpha + s$deaths; b <- fs$beta + s$n - s$deaths
# P(k others above | t) by plain convolution, averaged by integrate
conv <- function(p) { f <- 1; for (q in p) f <- c(f * (1 - q), 0) + c(0, f * q); f }
rank_of <- function(i) sapply(1:12, function(rk) integrate(function(t) sapply(t, function(u)
  dbeta(u, a[i], b[i]) * conv(pbeta(u, a[-i], b[-i]))[rk]), max(0, qbeta(1e-12, a[i], b[i])), qbeta(1 - 1e-12, a[i], b[i]),
  rel.tol = 1e-10, subdivisions = 500)$value)
ranks <- t(sapply(1:12, rank_of))
cat(toJSON(list(versions = list(R = as.character(getRversion())), surgical = fs, rats70 = fit(r$tumours[1:70], r$n[1:70]),
  rats71 = fit(r$tumours, r$n), moments = list(surgical = kleinman(s$deaths, s$n), rats = kleinman(r$tumours, r$n)),
  anova = list(surgical = anova_icc(s$deaths, s$n), rats = anova_icc(r$tumours, r$n), eyes = anova_icc(pair, rep(2, length(pair)))),
  shrunken = list(mean = a / (a + b), lower = qbeta(.025, a, b), upper = qbeta(.975, a, b)), ranks = ranks),
  auto_unbox = TRUE, digits = NA, pretty = TRUE))
