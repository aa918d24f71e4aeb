# Exact power of tests of two proportions, by counting out all tables. R 4.2.2 (stats), jsonlite 1.8.4.
library(jsonlite)
tests <- list(Fisher = function(a, n, b, m) fisher.test(matrix(c(a, n - a, b, m - b), 2))$p.value <= .05,
  "mid-P" = function(a, n, b, m) { k <- a + b; s <- max(0, k - m):min(n, k); d <- dhyper(s, n, m, k); o <- dhyper(a, n, m, k)
    eq <- abs(d - o) <= o * 1e-7; sum(d[d < o & !eq]) + sum(d[eq]) / 2 <= .05 },
  "chi-square" = function(a, n, b, m) { if (a + b == 0 || a + b == n + m) return(FALSE)
    suppressWarnings(chisq.test(matrix(c(a, n - a, b, m - b), 2), correct = FALSE))$p.value <= .05 })
power <- function(n, p, m, q, test) { s <- 0
  for (a in 0:n) for (b in 0:m) if (tests[[test]](a, n, b, m)) s <- s + dbinom(a, n, p) * dbinom(b, m, q); s }
cases <- list(list(20, .1, 20, .5), list(12, .3, 17, .9), list(25, .13, 25, .13), list(1, .5, 3, .2), list(30, .02, 10, .3))
out <- list()
for (k in cases) for (t in names(tests)) out[[length(out) + 1]] <- list(first = list(total = k[[1]], rate = k[[2]]),
  second = list(total = k[[3]], rate = k[[4]]), test = t, power = do.call(power, c(k, t)))
# Fisher for larger groups, from phyper-free tables of p by margin
fisher_p <- function(n, m) lapply(0:(n + m), function(k) { s <- max(0, k - m):min(n, k); d <- dhyper(s, n, m, k)
  setNames(sapply(d, function(o) sum(d[d <= o * (1 + 1e-7)])), s) })
fpower <- function(n, p, q) { P <- fisher_p(n, n); s <- 0
  for (k in 0:(2 * n)) { x <- as.integer(names(P[[k + 1]])); r <- P[[k + 1]] <= .05; s <- s + sum(dbinom(x[r], n, p) * dbinom(k - x[r], n, q)) }; s }
need <- function(p, q, range) { w <- sapply(range, fpower, p = p, q = q); list(rates = c(p, q), cases = range[max(which(w < .8)) + 1]) }
cat(toJSON(list(versions = list(R = as.character(getRversion())), power = out,
  large = list(list(total = 150, rates = c(.1, .25), power = fpower(150, .1, .25))),
  needed = list(need(.1, .5, 10:50), need(.05, .4, 10:60))), auto_unbox = TRUE, digits = NA, pretty = TRUE))
