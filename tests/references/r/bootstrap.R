# BCa limits written out on fixed draws. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
set.seed(31); x <- round(rexp(25), 4); est <- mean(x)
draws <- sapply(1:999, function(i) mean(sample(x, replace = TRUE)))
jack <- sapply(seq_along(x), function(i) mean(x[-i])); d <- mean(jack) - jack
a <- sum(d^3) / (6 * sum(d^2)^1.5); z0 <- qnorm(mean(draws < est) + mean(draws == est) / 2)
lim <- function(level) { z <- z0 + qnorm(c((1 - level) / 2, (1 + level) / 2)); unname(quantile(draws, pnorm(z0 + z / (1 - a * z)))) }
cat(toJSON(list(versions = list(R = as.character(getRversion())), x = x, draws = draws, without = jack, estimate = est,
  bca95 = lim(.95), bca90 = lim(.9), percentile95 = unname(quantile(draws, c(.025, .975)))), auto_unbox = TRUE, digits = NA))
