# Tests and estimates for tables of counts. R 4.2.2 (stats), jsonlite 1.8.4. The intervals that
# stats does not have are computed here from their defining equations by a general optimiser.
library(jsonlite)
z <- qnorm(.975)
wilson <- function(x, n) as.vector(suppressWarnings(prop.test(x, n, correct = FALSE)$conf.int))
wilsonc <- function(x, n) as.vector(suppressWarnings(prop.test(x, n, correct = TRUE)$conf.int))
newcombe <- function(x1, n1, x2, n2, w) {
  p1 <- x1 / n1; p2 <- x2 / n2; a <- w(x1, n1); b <- w(x2, n2)
  p1 - p2 + c(-sqrt((p1 - a[1])^2 + (b[2] - p2)^2), sqrt((a[2] - p1)^2 + (p2 - b[1])^2))
}
# constrained likelihood maximised numerically: p2 free, p1 = link(p2)
ll <- function(x, n, p) (if (x > 0) x * log(p) else 0) + (if (x < n) (n - x) * log1p(-p) else 0)
score <- function(x1, n1, x2, n2, link, lo, hi, num, den) {
  f <- function(q) ll(x1, n1, link(q)) + ll(x2, n2, q)
  q <- optimize(f, c(lo, hi), maximum = TRUE, tol = 1e-14)$maximum
  num(link(q), q) / sqrt(den(link(q), q) * (n1 + n2) / (n1 + n2 - 1))
}
mn <- function(x1, n1, x2, n2) {
  p1 <- x1 / n1; p2 <- x2 / n2
  s <- function(d) score(x1, n1, x2, n2, function(q) q + d, max(0, -d), min(1, 1 - d),
    function(a, b) p1 - p2 - d, function(a, b) a * (1 - a) / n1 + b * (1 - b) / n2)
  lo <- if (p1 - p2 == -1) -1 else uniroot(function(d) s(d) - z, c(-1 + 1e-9, min(p1 - p2, 1 - 1e-9)), tol = 1e-12)$root
  hi <- if (p1 - p2 == 1) 1 else uniroot(function(d) s(d) + z, c(p1 - p2, 1 - 1e-9), tol = 1e-12)$root
  c(lo, hi)
}
mnr <- function(x1, n1, x2, n2) {
  p1 <- x1 / n1; p2 <- x2 / n2
  s <- function(l) { r <- exp(l); score(x1, n1, x2, n2, function(q) r * q, 0, min(1, 1 / r),
    function(a, b) p1 - r * p2, function(a, b) a * (1 - a) / n1 + r^2 * b * (1 - b) / n2) }
  e <- log(p1 / p2)
  exp(c(uniroot(function(l) s(l) - z, c(e - 8, e), tol = 1e-12)$root,
        uniroot(function(l) s(l) + z, c(e, e + 8), tol = 1e-12)$root))
}
mno <- function(x1, n1, x2, n2) {
  p1 <- x1 / n1; p2 <- x2 / n2
  s <- function(l) { r <- exp(l); score(x1, n1, x2, n2, function(q) r * q / (1 + (r - 1) * q), 0, 1,
    function(a, b) (p1 - a) / (a * (1 - a)) - (p2 - b) / (b * (1 - b)),
    function(a, b) 1 / (n1 * a * (1 - a)) + 1 / (n2 * b * (1 - b))) }
  e <- log(p1 / (1 - p1) / (p2 / (1 - p2)))
  exp(c(uniroot(function(l) s(l) - z, c(e - 8, e - 1e-4), tol = 1e-12)$root,
        uniroot(function(l) s(l) + z, c(e + 1e-4, e + 8), tol = 1e-12)$root))
}
pairs <- list(c(56, 70, 48, 80), c(9, 10, 3, 10), c(6, 7, 2, 7), c(5, 56, 0, 29), c(0, 10, 0, 20),
  c(0, 10, 0, 10), c(10, 10, 0, 20), c(10, 10, 0, 10), c(71, 133, 95, 132), c(63, 78, 68, 73))
differences <- lapply(pairs, function(k) list(table = k,
  method10 = newcombe(k[1], k[2], k[3], k[4], wilson),
  method11 = newcombe(k[1], k[2], k[3], k[4], wilsonc), score = mn(k[1], k[2], k[3], k[4])))
ratios <- lapply(pairs[c(1, 2, 3, 9, 10)], function(k) {
  a <- k[1]; b <- k[2] - k[1]; c <- k[3]; d <- k[4] - k[3]
  rr <- (a / k[2]) / (c / k[4]); or <- a * d / b / c
  list(table = k, scoreRatio = mnr(k[1], k[2], k[3], k[4]), scoreOdds = mno(k[1], k[2], k[3], k[4]),
    risk = c(rr, rr * exp(c(-z, z) * sqrt(1 / a - 1 / k[2] + 1 / c - 1 / k[4]))),
    odds = c(or, or * exp(c(-z, z) * sqrt(1 / a + 1 / b + 1 / c + 1 / d))))
})
# exact conditional estimate and limits; fisher.test and mantelhaen.test find theirs with uniroot's
# default tolerance only (their upper limits can be 1% off), so the roots are refined here
conditional <- function(strata, level = .95) {
  w <- 1; least <- 0; x <- 0
  for (k in strata) {
    n1 <- k[2]; m <- k[1] + k[3]; n2 <- k[4]; lo <- max(0, m - n2); hi <- min(n1, m)
    h <- dhyper(lo:hi, n1, n2, m)
    least <- least + lo; x <- x + k[1]
    joint <- numeric(length(w) + length(h) - 1)
    for (i in seq_along(w)) joint[i + seq_along(h) - 1] <- joint[i + seq_along(h) - 1] + w[i] * h
    w <- joint
  }
  s <- least + seq_along(w) - 1
  p <- function(l) { v <- log(w) + s * l; v <- exp(v - max(v)); v / sum(v) }
  root <- function(f) exp(uniroot(f, c(-25, 25), tol = 1e-14)$root)
  a <- (1 - level) / 2
  c(if (x == min(s)) 0 else if (x == max(s)) Inf else root(function(l) sum(p(l) * s) - x),
    if (x == min(s)) 0 else root(function(l) log(sum(p(l)[s >= x])) - log(a)),
    if (x == max(s)) Inf else root(function(l) log(sum(p(l)[s <= x])) - log(a)))
}
fisher <- function(k) {
  m <- matrix(c(k[1], k[2] - k[1], k[3], k[4] - k[3]), 2, byrow = TRUE)
  f <- fisher.test(m)
  list(table = k, p = f$p.value, less = fisher.test(m, alternative = "less")$p.value,
    greater = fisher.test(m, alternative = "greater")$p.value, printed = unname(f$estimate),
    odds = conditional(list(k)), odds99 = conditional(list(k), .99),
    chi = unname(suppressWarnings(chisq.test(m, correct = FALSE)$statistic)),
    yates = unname(suppressWarnings(chisq.test(m)$statistic)))
}
fishers <- lapply(c(pairs[c(1, 2, 3, 4, 8, 9, 10)], list(c(3, 4, 1, 4), c(2, 17, 10, 13),
  c(1, 800, 4, 900), c(120, 1000, 151, 1010))), fisher)
job <- matrix(c(1, 2, 1, 0, 3, 3, 6, 1, 10, 10, 14, 9, 6, 7, 12, 11), 4)
bigger <- list(job, matrix(c(12, 3, 5, 9, 4, 11, 2, 8), 4), matrix(c(3, 0, 2, 1, 4, 5, 0, 2, 7), 3),
  matrix(c(60, 442, 30, 410, 9, 101, 4, 77, 2, 30), 5, byrow = TRUE))
party <- rbind(c(762, 327, 468), c(484, 239, 477)); ch <- chisq.test(party)
ucb <- read.csv("data/ucbadmissions.csv"); rab <- read.csv("data/rabbits.csv")
cube <- function(d, failed, first, rowvar, colvar, stratum) {
  lapply(unique(d[[stratum]]), function(s) {
    q <- d[d[[stratum]] == s, ]; g <- function(r, f) sum(q$Freq[(q[[colvar]] == first) == r & (q[[rowvar]] == failed) == f])
    c(g(TRUE, TRUE), g(TRUE, TRUE) + g(TRUE, FALSE), g(FALSE, TRUE), g(FALSE, TRUE) + g(FALSE, FALSE))
  })
}
strata <- list(ucb = cube(ucb, "Admitted", "Male", "Admit", "Gender", "Dept"),
  rabbits = cube(rab, "Cured", "None", "Response", "Delay", "Penicillin"))
mantel <- lapply(strata, function(s) {
  m <- array(unlist(lapply(s, function(k) c(k[1], k[3], k[2] - k[1], k[4] - k[3]))), c(2, 2, length(s)))
  h <- mantelhaen.test(m); u <- mantelhaen.test(m, correct = FALSE); e <- mantelhaen.test(m, exact = TRUE)
  a <- m[1, 1, ]; c <- m[2, 1, ]; b <- m[1, 2, ]; d <- m[2, 2, ]; n1 <- a + b; n2 <- c + d; n <- n1 + n2
  rr <- sum(a * n2 / n) / sum(c * n1 / n)
  vr <- sum((n1 * n2 * (a + c) - a * c * n) / n^2) / (sum(a * n2 / n) * sum(c * n1 / n))
  rd <- sum((a * n2 - c * n1) / n) / sum(n1 * n2 / n)
  P <- (n1^2 * c - n2^2 * a + n1 * n2 * (n2 - n1) / 2) / n^2; Q <- (a * d + c * b) / (2 * n)
  vd <- (rd * sum(P) + sum(Q)) / sum(n1 * n2 / n)^2
  or <- unname(h$estimate); ok <- (a + c) > 0 & (b + d) > 0
  A <- mapply(function(n1, m, n, a) { lo <- max(0, n1 + m - n); hi <- min(n1, m)
    uniroot(function(x) x * (n - n1 - m + x) - or * (n1 - x) * (m - x), c(lo, hi), tol = 1e-13)$root },
    n1[ok], (a + c)[ok], n[ok], a[ok])
  v <- 1 / (1 / A + 1 / (n1[ok] - A) + 1 / ((a + c)[ok] - A) + 1 / (n[ok] - n1[ok] - (a + c)[ok] + A))
  bd <- sum((a[ok] - A)^2 / v)
  list(strata = s, odds = c(or, as.vector(h$conf.int)), corrected = unname(h$statistic),
    uncorrected = unname(u$statistic), exactOdds = conditional(s),
    exactP = e$p.value, risk = c(rr, rr * exp(c(-z, z) * sqrt(vr))), difference = c(rd, rd + c(-z, z) * sqrt(vd)),
    breslowDay = bd, tarone = bd - sum(a[ok] - A)^2 / sum(v))
})
sm <- read.csv("data/smokers.csv")
trend <- function(s) unname(prop.trend.test(sm$smokers, sm$patients, s)$statistic)
mc <- matrix(c(794, 86, 150, 570), 2)
ret <- read.csv("data/retinopathy.csv")
m <- as.vector(tapply(ret$status, ret$id, length)); x <- as.vector(tapply(ret$status, ret$id, sum))
p <- sum(x) / sum(m); G <- length(m)
out <- list(versions = list(R = as.character(getRversion())), differences = differences, ratios = ratios,
  fishers = fishers, bigger = lapply(bigger, function(m) list(table = m, p = fisher.test(m, workspace = 2e7)$p.value)),
  party = list(table = party, statistic = unname(ch$statistic), expected = ch$expected, residuals = ch$residuals, p = ch$p.value),
  mantel = mantel, trend = list(plain = trend(1:4), last = trend(c(0, 0, 0, 1)), uneven = trend(c(1, 2, 4, 8))),
  mcnemar = list(corrected = unname(mcnemar.test(mc)$statistic), plain = unname(mcnemar.test(mc, correct = FALSE)$statistic),
    exact = binom.test(86, 236)$p.value),
  clustered = list(estimate = p, standardError = sqrt(G / (G - 1) * sum((x - p * m)^2)) / sum(m)))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE))
