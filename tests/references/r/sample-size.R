# Cases needed by the exact binomial test and per group. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
power1 <- function(n, p0, p1, a) if (p1 > p0) { c <- qbinom(1 - a, n, p0) + 1; c(c, pbinom(c - 1, n, p1, lower.tail = FALSE)) } else {
  c <- qbinom(a, n, p0); if (pbinom(c, n, p0) > a) c <- c - 1; c(c, if (c < 0) 0 else pbinom(c, n, p1)) }
need <- function(p0, p1, a = .025, power = .8, most = 3000) { pw <- sapply(1:most, function(n) power1(n, p0, p1, a)[2])
  n <- max(which(pw < power)) + 1; list(target = p0, other = p1, alpha = a, power = power, cases = n, critical = power1(n, p0, p1, a)[1], reached = pw[n]) }
fleiss <- function(p, q) { n <- power.prop.test(p1 = p, p2 = q, power = .8, strict = FALSE, tol = 1e-12)$n; d <- abs(p - q)
  list(target = p, other = q, plain = ceiling(n), corrected = ceiling(n / 4 * (1 + sqrt(1 + 4 / (n * d)))^2)) }
cat(toJSON(list(versions = list(R = as.character(getRversion())),
  cases = list(need(.1, .2), need(.13, .26), need(.2, .1), need(.15, .25, .05, .9), need(.1, .13)),
  groups = list(fleiss(.1, .2), fleiss(.15, .1), fleiss(.3, .5))), auto_unbox = TRUE, digits = NA))
