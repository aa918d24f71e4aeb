# Bootstrap intervals by the package boot from stored replicates, long seeded bootstraps and an exact
# permutation test for comparison. R 4.2.2 (stats), boot 1.3-28.1, jsonlite 1.8.4. Law schools: Efron and Tibshirani 1993,
# An Introduction to the Bootstrap, table 3.1.
library(jsonlite); library(boot)
lsat <- c(576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594)
gpa <- c(3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96)
n <- length(lsat); t0 <- cor(lsat, gpa); jack <- sapply(1:n, function(i) cor(lsat[-i], gpa[-i]))
set.seed(99)
b <- boot(cbind(lsat, gpa), function(d, i) cor(d[i, 1], d[i, 2]), R = 499)
L <- (n - 1) * (mean(jack) - jack)
at <- function(level) { ci <- boot.ci(b, conf = level, type = c("perc", "bca"), L = L)
  list(level = level, percentile = ci$percent[4:5], bca = ci$bca[4:5]) }
long <- boot(cbind(lsat, gpa), function(d, i) cor(d[i, 1], d[i, 2]), R = 20000)
lc <- boot.ci(long, type = c("perc", "bca"), L = L)
e <- read.csv("data/retinopathy.csv"); ids <- unique(e$id); byid <- split(e$status, e$id)
share <- replicate(10000, mean(unlist(byid[sample.int(length(ids), replace = TRUE)])))
a <- c(12, 15, 9, 20, 18, 11); c2 <- c(22, 17, 25, 19, 28, 16, 21)
x <- c(a, c2); sets <- combn(13, 6); d <- abs(apply(sets, 2, function(s) mean(x[s]) - mean(x[-s])))
cat(toJSON(list(versions = list(R = as.character(getRversion()), boot = as.character(packageVersion("boot"))),
  law = list(lsat = lsat, gpa = gpa, estimate = t0, jackknife = jack, acceleration = sum(L^3) / (6 * sum(L^2)^1.5),
    replicates = sort(as.vector(b$t)), intervals = lapply(c(.9, .95, .99), at)),
  long = list(se = sd(long$t), percentile = lc$percent[4:5], bca = lc$bca[4:5]),
  clusters = list(se = sd(share), percentile = unname(quantile(share, c(.025, .975)))),
  permutation = list(first = a, second = c2, p = mean(d >= abs(mean(a) - mean(c2)) - 1e-12))),
  auto_unbox = TRUE, digits = NA, pretty = TRUE))
