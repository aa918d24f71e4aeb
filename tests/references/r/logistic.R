# Logistic regression, discrimination, calibration, standardisation. R 4.2.2 (stats), MASS 7.3-58.2
# (profile limits), pROC 1.18.0, jsonlite 1.8.4. The penalised fit and the sandwich are written out here.
suppressMessages({library(jsonlite); library(MASS); library(pROC)})
bw <- read.csv("data/birthwt.csv"); bw$race2 <- as.numeric(bw$race == 2); bw$race3 <- as.numeric(bw$race == 3)
bw$id <- (seq_len(nrow(bw)) - 1) %/% 2; bw$weight <- 1 + seq_len(nrow(bw)) %% 3
ret <- read.csv("data/retinopathy.csv"); end <- read.csv("data/endometrial.csv")
ctl <- glm.control(epsilon = 1e-14, maxit = 100)
fit <- function(f, data, id = NULL, w = rep(1, nrow(data)), profile = FALSE) {
  data$.w <- w; g <- glm(f, binomial, data, weights = .w, control = ctl); x <- model.matrix(g); V <- vcov(g)
  out <- list(coefficients = unname(coef(g)), standardErrors = unname(sqrt(diag(V))), logLikelihood = as.numeric(logLik(g)),
    null = -g$null.deviance / 2, aic = AIC(g))
  if (!is.null(id)) { U <- rowsum(x * w * (g$y - fitted(g)), id); out$robust <- unname(sqrt(diag(V %*% crossprod(U) %*% V))) }
  if (profile) out$profile <- unname(suppressMessages(confint(g)))
  out
}
firth <- function(f, data) {
  x <- model.matrix(f, data); y <- model.response(model.frame(f, data)); p <- ncol(x)
  pen <- function(b) { e <- drop(x %*% b); sum(y * e - log1p(exp(e))) + determinant(crossprod(x * sqrt(plogis(e) * plogis(-e))))$modulus / 2 }
  solve1 <- function(held, v) { b <- numeric(p); b[held] <- v; free <- setdiff(seq_len(p), held)
    for (i in 1:500) { pr <- plogis(drop(x %*% b)); W <- pr * (1 - pr); I <- crossprod(x * sqrt(W)); h <- W * rowSums((x %*% solve(I)) * x)
      if (length(free) == 0) break
      s <- crossprod(x, y - pr + h * (.5 - pr))[free]; d <- solve(I[free, free], s); m <- max(abs(d)); if (m > 2) d <- d * 2 / m
      k <- 1; old <- pen(b); repeat { nb <- b; nb[free] <- b[free] + k * d; if (pen(nb) >= old - 1e-12 || k < 1e-8) break; k <- k / 2 }
      b <- nb; if (max(abs(d)) < 1e-11) break }
    list(b = b, value = as.numeric(pen(b)), se = sqrt(diag(solve(I)))) }
  o <- solve1(integer(0), numeric(0))
  lim <- t(sapply(seq_len(p), function(j) { e <- function(v) o$value - solve1(j, v)$value - qchisq(.95, 1) / 2
    c(uniroot(e, c(o$b[j] - 12 * o$se[j], o$b[j]), tol = 1e-10)$root, uniroot(e, c(o$b[j], o$b[j] + 12 * o$se[j]), tol = 1e-10)$root) }))
  list(coefficients = o$b, standardErrors = unname(o$se), limits = lim, value = o$value,
    chiSquare = sapply(seq_len(p), function(j) 2 * (o$value - solve1(j, 0)$value)))
}
# limits of an area by Newcombe's fifth method, each the root of (A - t)^2 = z^2 V(t), and on the logit scale
scoreLimits <- function(A, m, n) { N <- (m + n) / 2 - 1; z <- qnorm(.975)
  f <- function(t) (A - t)^2 - z^2 * t * (1 - t) / (m * n) * (1 + N * ((1 - t) / (2 - t) + t / (1 + t))); e <- 1e-7
  c(if (A == 0) 0 else uniroot(f, c(0, min(A, 1 - e)), tol = 1e-15)$root, if (A == 1) 1 else uniroot(f, c(max(A, e), 1), tol = 1e-15)$root) }
logitLimits <- function(A, se) plogis(qlogis(A) + c(-1, 1) * qnorm(.975) * se / (A * (1 - A)))
# Murphy's parts over groups, with what is left within them
brierParts <- function(y, p, g) { n <- as.vector(table(g)); pm <- as.vector(tapply(p, g, mean)); ym <- as.vector(tapply(y, g, mean)); N <- sum(n); o <- mean(y)
  list(reliability = sum(n * (pm - ym)^2) / N, resolution = sum(n * (ym - o)^2) / N, uncertainty = o * (1 - o),
    within = (sum((p - ave(p, g))^2) - 2 * sum((p - ave(p, g)) * (y - ave(y, g)))) / N) }
full <- low ~ age + lwt + race2 + race3 + smoke + ptl + ht + ui
g <- glm(full, binomial, bw, control = ctl); p <- fitted(g)
r <- roc(bw$low, p, quiet = TRUE, direction = "<"); r2 <- roc(bw$low, bw$lwt, quiet = TRUE, direction = ">")
ra <- roc(bw$low, round(bw$age / 5), quiet = TRUE, direction = "<")
t2 <- roc.test(r, ra, method = "delong", paired = TRUE)
cut10 <- cut(p, unique(quantile(p, 0:10 / 10)), include.lowest = TRUE)
O <- tapply(bw$low, cut10, sum); E <- tapply(p, cut10, sum); n <- tapply(p, cut10, length)
half <- glm(low ~ age + lwt + smoke, binomial, bw[bw$id %% 2 == 0, ], control = ctl); new <- bw[bw$id %% 2 == 1, ]
q <- predict(half, new, type = "response")
cal0 <- glm(new$low ~ 1, binomial, offset = qlogis(q), control = ctl); cal1 <- glm(new$low ~ qlogis(q), binomial, control = ctl)
std <- function(v, robust = NULL) { x <- model.matrix(g); x[, "smoke"] <- v; pr <- plogis(drop(x %*% coef(g))); gr <- colMeans(pr * (1 - pr) * x)
  list(rate = mean(pr), gr = gr) }
U <- rowsum(model.matrix(g) * (g$y - p), bw$id); VR <- vcov(g) %*% crossprod(U) %*% vcov(g)
s1 <- std(1); s0 <- std(0); se <- function(gr, V) sqrt(drop(gr %*% V %*% gr))
out <- list(versions = list(R = as.character(getRversion()), pROC = as.character(packageVersion("pROC")), MASS = as.character(packageVersion("MASS"))),
  data = bw[, c("low", "age", "lwt", "race2", "race3", "smoke", "ptl", "ht", "ui", "ftv", "id", "weight")],
  full = fit(full, bw, bw$id, profile = TRUE), small = fit(low ~ lwt + race2 + race3, bw),
  weighted = fit(low ~ age + smoke, bw, bw$id, bw$weight),
  retinopathy = fit(status ~ trt, ret, ret$id),
  firth = list(endometrial = firth(HG ~ NV + PI + EH, end), birthwt = firth(low ~ age + smoke + ht, bw)),
  roc = list(area = as.numeric(auc(r)), se = sqrt(var(r)), limits = as.vector(ci.auc(r))[c(1, 3)], lwt = as.numeric(auc(r2)), lwtSe = sqrt(var(r2)),
    ties = as.numeric(auc(ra)), tiesSe = sqrt(var(ra)), score = scoreLimits(as.numeric(auc(r)), 59, 130), scoreOfAll = scoreLimits(1, 5, 15), logit = logitLimits(as.numeric(auc(r)), sqrt(var(r))), difference = as.numeric(auc(r) - auc(ra)), z = unname(t2$statistic), p = t2$p.value),
  brier = mean((bw$low - p)^2), brierTenths = brierParts(bw$low, p, cut10), smooth = { l <- lowess(p, bw$low, f = 2 / 3, iter = 0, delta = 0); list(at = l$x, share = l$y) },
  smoothTied = { l <- lowess(round(p, 1), bw$low, f = 1 / 2, iter = 0, delta = 0); list(at = l$x, share = l$y) }, hosmer = list(total = as.vector(n), observed = as.vector(O), expected = as.vector(E), statistic = sum((O - E)^2 / (E * (1 - E / n)))),
  calibration = list(probability = unname(q), outcome = new$low, intercept = unname(c(coef(cal0), sqrt(vcov(cal0)))), slope = unname(c(coef(cal1)[2], sqrt(vcov(cal1)[2, 2])))),
  standard = list(smoke = s1$rate, none = s0$rate, smokeError = se(s1$gr, vcov(g)), noneError = se(s0$gr, vcov(g)),
    difference = se(s1$gr - s0$gr, vcov(g)), smokeRobust = se(s1$gr, VR), differenceRobust = se(s1$gr - s0$gr, VR)))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, na = "string"))
