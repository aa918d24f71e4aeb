# Distribution functions over a grid. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
g <- expand.grid(shape = c(0.1, 0.5, 1, 3, 17.5, 120, 900, 2000, 1e5), ratio = c(0.01, .3, .9, .99, 1, 1.02, 1.3, 3, 20))
g$x <- g$shape * g$ratio
g$lower <- pgamma(g$x, g$shape); g$upper <- pgamma(g$x, g$shape, lower.tail = FALSE)
q <- expand.grid(p = c(1e-10, .001, .025, .5, .975, .999), shape = c(.05, .5, 1, 2.5, 30, 1000, 5e4))
q$lower <- qgamma(q$p, q$shape); q$upper <- qgamma(q$p, q$shape, lower.tail = FALSE)
l <- c(1e-8, .1, .5, 1.5, 2.5, 3, 7.2, 14.9, 15, 16, 170, 1e4, 1e8)
z <- c(-38, -20, -6, -1.96, -.3, 0, .3, 1.96, 6)
p <- c(1e-15, 1e-6, .001, .025, .3, .5, .7, .975, .999)
b <- expand.grid(x = c(.001, .05, .5, .9, .999), a = c(.5, 1, 8, 300), b = c(.5, 2, 40, 2000))
b$cdf <- pbeta(b$x, b$a, b$b); b$quantile <- qbeta(b$x, b$a, b$b)
n <- expand.grid(k = c(0, 1, 5, 20), n = c(20, 1000), p = c(.001, .05, .7))
n$lower <- pbinom(n$k, n$n, n$p); n$upper <- pbinom(n$k - 1, n$n, n$p, lower.tail = FALSE)
n$density <- dbinom(n$k, n$n, n$p)
h <- data.frame(k = c(0, 3, 7, 40), total = c(20, 60, 500, 3000), marked = c(5, 9, 60, 700), draws = c(6, 30, 55, 150))
h$log <- dhyper(h$k, h$marked, h$total - h$marked, h$draws, log = TRUE)
cat(toJSON(list(versions = list(R = as.character(getRversion())), gamma = g, gammaQuantile = q,
  logGamma = data.frame(x = l, value = lgamma(l)), normal = data.frame(z = z, lower = pnorm(z)),
  normalQuantile = data.frame(p = p, z = qnorm(p)), beta = b, binomial = n, hypergeometric = h,
  chiSquare = data.frame(x = c(3.84, 30, 200, 1400), df = c(1, 5, 1, 3),
    upper = pchisq(c(3.84, 30, 200, 1400), c(1, 5, 1, 3), lower.tail = FALSE))),
  auto_unbox = TRUE, digits = NA, dataframe = "rows"))
