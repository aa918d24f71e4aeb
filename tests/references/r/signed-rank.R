# Wilcoxon's signed-rank test and the Hodges-Lehmann estimate. R 4.2.2 (stats), jsonlite 1.8.4. The
# exact test of stats takes neither ties nor zeros: there all sign patterns are listed here.
library(jsonlite)
depression <- c(0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29) -
  c(1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30)
set.seed(20250105)
many <- round(rnorm(150, .2), 6)
acuity <- sample(seq(-6, 8), 160, replace = TRUE) / 10
one <- function(d, exact) { w <- suppressWarnings(wilcox.test(d, exact = exact, conf.int = TRUE, digits.rank = 9))
  list(differences = d, statistic = unname(w$statistic), pValue = w$p.value, lower = w$conf.int[1], upper = w$conf.int[2], estimate = unname(w$estimate)) }
listed <- function(d, pratt) { d <- round(d, 9); r <- if (pratt) rank(abs(d))[d != 0] else rank(abs(d[d != 0])); s <- d[d != 0] > 0
  t <- sum(r[s]); all <- as.vector(as.matrix(expand.grid(rep(list(0:1), length(r)))) %*% r)
  list(differences = d, statistic = t, pValue = min(1, 2 * min(mean(all <= t + 1e-9), mean(all >= t - 1e-9)))) }
tied <- c(.3, -.1, 0, .2, .2, .5, -.2, 0, .1, .4, .3, .1, -.4)
walsh <- function(d) { w <- outer(d, d, "+") / 2; median(w[upper.tri(w, diag = TRUE)]) }
averages <- function(d, level) { w <- outer(d, d, "+") / 2; w <- sort(w[upper.tri(w, diag = TRUE)]); q <- qsignrank((1 - level) / 2, length(d)); c(w[q], w[length(w) + 1 - q]) }
out <- list(
  versions = list(R = as.character(getRversion())),
  depression = one(depression, TRUE), exact = lapply(c(6, 25, 60), function(n) one(many[seq_len(n)], TRUE)),
  normal = lapply(list(many, acuity), function(d) { w <- one(d, FALSE); w[c("differences", "statistic", "pValue")] }),
  pratt = listed(tied, TRUE), wilcoxon = listed(tied, FALSE),
  averages = list(differences = acuity[1:40], estimate = walsh(acuity[1:40]), limits = averages(acuity[1:40], .95), narrow = averages(acuity[1:40], .8)))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, na = "string"))
