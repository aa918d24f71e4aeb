# Funnel limits, z scores, over-dispersion. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
at <- function(p, F, f) { r <- 0; while (F(r) <= p) r <- r + 1; r - (F(r) - p) / f(r) }
ps <- c(.001, .025, .975, .999)
proportion <- list()
for (theta in c(.02, .1, .13, .15, .9)) for (n in c(1, 5, 20, 50, 100, 500))
  proportion[[length(proportion) + 1]] <- list(target = theta, total = n,
    counts = sapply(ps, at, function(r) pbinom(r, n, theta), function(r) dbinom(r, n, theta)))
ratio <- list()
for (e in c(.2, 5, 10, 20, 50, 100, 400)) ratio[[length(ratio) + 1]] <- list(expected = e,
    counts = sapply(ps, at, function(r) ppois(r, e), function(r) dpois(r, e)))
d <- read.csv("data/surgical12.csv")
t <- sum(d$deaths) / sum(d$n); s <- sqrt(t * (1 - t) / d$n); y <- d$deaths / d$n
z <- (y - t) / s; I <- length(z); w <- 1 / s^2
disp <- function(share) {
  q <- quantile(z, c(share, 1 - share)); v <- pmin(pmax(z, q[1]), q[2]); phi <- mean(v^2)
  list(share = share, winsorised = v, phi = phi, tau2 = max(0, (I * phi - (I - 1)) / (sum(w) - sum(w^2) / sum(w))))
}
sets <- list(c(3), c(2, 9), c(.3, -4, 1.5, 8, 8), c(5, 1, 4, 2, 3, 10, 7, 6, 9, 8))
q <- lapply(sets, function(v) list(values = I(v), p = c(0, .1, .25, .5, .9, 1), quantiles = unname(quantile(v, c(0, .1, .25, .5, .9, 1)))))
cat(toJSON(list(versions = list(R = as.character(getRversion())), p = ps, proportion = proportion, ratio = ratio,
  surgical = list(target = t, z = z, Q = sum(z^2), pFixed = pchisq(sum(z^2), I, lower.tail = FALSE),
    pEstimated = pchisq(sum(z^2), I - 1, lower.tail = FALSE), dispersion = lapply(c(0, .1, .2), disp)),
  quantiles = q), auto_unbox = TRUE, digits = NA, pretty = TRUE))
