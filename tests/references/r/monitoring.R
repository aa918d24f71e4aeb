# Monitoring charts and their run lengths. R 4.2.2 (stats), jsonlite 1.8.4. Lattice CUSUMs by dense
# linear algebra, the CUSUM for a mix of risks also by seeded simulation, normal charts by Simpson's
# rule on many points, Brook and Evans by their own states.
library(jsonlite)
d <- read.csv("data/racusum_small.csv")
w <- function(p, R, y) y * log(R) - log(1 - p + R * p)
path <- function(x) { s <- 0; v <- numeric(length(x)); for (i in seq_along(x)) { s <- max(0, s + x[i]); v[i] <- s }; v }
lattice <- function(p, up, H) { # failure +up, success -1
  Q <- matrix(0, H, H)
  for (i in 0:(H - 1)) { j <- max(0, i - 1); Q[i + 1, j + 1] <- Q[i + 1, j + 1] + 1 - p
    if (i + up < H) Q[i + 1, i + up + 1] <- Q[i + 1, i + up + 1] + p }
  list(arl = solve(diag(H) - Q, rep(1, H))[1], Q = Q)
}
within <- function(Q, n) { v <- c(1, rep(0, nrow(Q) - 1)); sapply(1:n, function(i) { v <<- as.vector(v %*% Q); 1 - sum(v) })[n] }
lat <- lapply(list(c(.1, 7, 20), c(.1943579583, 7, 20), c(.1, 7, 30), c(.0977441979, 14, 40), c(.05, 14, 40), c(.01, 72, 173)), function(k) {
  l <- lattice(k[1], k[2] - 1, k[3]); list(p = k[1], m = k[2], H = k[3], arl = l$arl, within = sapply(c(10, 60, 200), function(n) within(l$Q, n))) })
brook <- function(h, t, k = .5, mu = 0) { width <- 2 * h / (2 * t - 1); i <- 0:(t - 1)
  Q <- outer(i, i, function(a, b) { z <- (b - a) * width + k - mu
    ifelse(b == 0, pnorm(-a * width + width / 2 + k - mu), pnorm(z + width / 2) - pnorm(z - width / 2)) })
  solve(diag(t) - Q, rep(1, t))[1] }
simpson <- function(a, b, n) { h <- (b - a) / n; list(x = seq(a, b, h), w = h / 3 * c(1, rep(c(4, 2), length.out = n - 1), 1)) }
ncusum <- function(h, mu, k = .5) { g <- simpson(0, h, 600); x <- c(0, g$x)
  K <- cbind(pnorm(k - x - mu), sapply(seq_along(g$x), function(j) g$w[j] * dnorm(g$x[j] - x + k - mu)))
  solve(diag(length(x)) - K, rep(1, length(x)))[1] }
newma <- function(a, L, mu) { c <- L * sqrt(a / (2 - a)); g <- simpson(-c, c, 600); x <- g$x
  K <- sapply(seq_along(x), function(j) g$w[j] * dnorm((x[j] - (1 - a) * x) / a - mu) / a)
  l <- solve(diag(length(x)) - K, rep(1, length(x))); l[(length(x) + 1) / 2] }
set.seed(31)
sim <- function(R, n, h = 3) { p <- c(.05, .1, .25); x <- replicate(n, { s <- 0; t <- 0
  while (s < h) { t <- t + 1; q <- p[findInterval(runif(1), c(0, .5, .8))]; y <- runif(1) < R * q / (1 - q + R * q); s <- max(0, s + w(q, 2, y)) }; t })
  list(odds = R, mean = mean(x), se = sd(x) / sqrt(n), within50 = mean(x <= 50)) }
sims <- list(sim(2, 1500), sim(4, 1500))
a <- .2; p0 <- .1; z <- p0; y <- c(0, 1, 0, 0, 1); ez <- sapply(y, function(v) z <<- a * v + (1 - a) * z)
dt <- lapply(1:10, function(i) { p <- d$p[1:i]; f <- 1; for (q in p) f <- c(f * (1 - q), 0) + c(0, f * q)
  c(min(which(cumsum(f) > .025)) - 1, max(which(rev(cumsum(rev(f))) > .025)) - 1) - sum(p) })
cat(toJSON(list(versions = list(R = as.character(getRversion())),
  weights = lapply(list(c(0, 2), c(50, 2), c(71, 2), c(0, .5), c(50, .5), c(71, .5)), function(k) { p <- plogis(-3.68 + .077 * k[1])
    list(p = p, R = k[2], success = w(p, k[2], 0), failure = w(p, k[2], 1)) }),
  upper = path(w(d$p, 2, d$y)), lower = -path(w(d$p, .5, d$y)), lattice = lat,
  brook = lapply(list(c(5, 5), c(5, 25), c(5, 100), c(4, 10), c(4, 50)), function(k) list(h = k[1], states = k[2], arl = brook(k[1], k[2]))),
  normal = lapply(list(c(4, 0), c(4, 1), c(5, 0), c(5, 1), c(3, 0), c(3, 1)), function(k) list(h = k[1], mean = k[2], arl = ncusum(k[1], k[2]))),
  ewma = lapply(list(c(.1, 2.814, 0), c(.1, 2.814, 1), c(.2, 2.962, 0), c(.2, 2.962, 1), c(.05, 2.615, 0), c(.4, 3.054, 1), c(.2, 2.86, 0)), function(k)
    list(newest = k[1], width = k[2], mean = k[3], arl = newma(k[1], k[2], k[3]))),
  simulated = sims,
  moving = list(values = ez, upper = p0 + 3 * sqrt(p0 * (1 - p0) * a / (2 - a) * (1 - (1 - a)^(2 * 1:5)))),
  difference = list(values = cumsum(d$y - d$p), limits = do.call(rbind, dt))),
  auto_unbox = TRUE, digits = NA, pretty = TRUE))
