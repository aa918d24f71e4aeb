# Survival estimates and tests of the log-rank family. R 4.2.2, survival 3.5-3, jsonlite 1.8.4.
suppressMessages({library(survival); library(jsonlite)})
read <- function(f) read.csv(file.path("data", f), stringsAsFactors = FALSE)
kinds <- c("plain", "log", "log-log", "logit", "arcsin")
curve <- function(formula, data, kind = "log-log", ...) {
  s <- survfit(formula, data, conf.type = kind, ...)
  list(time = s$time, atRisk = s$n.risk, events = s$n.event, censored = s$n.censor,
    survival = s$surv, standardError = s$surv * s$std.err, hazard = s$cumhaz,
    hazardError = s$std.chaz, lower = s$lower, upper = s$upper)
}
fr <- read("freireich.csv"); mp <- fr[fr$group == "6-MP", ]; pl <- fr[fr$group != "6-MP", ]
aml <- read("aml.csv"); lung <- read("lung.csv"); ret <- read("retinopathy.csv")
lung$event <- lung$status == 2
set.seed(4)
late <- lung[, c("time", "event", "sex")]
late$entry <- floor(late$time * runif(nrow(late)) * 0.6)
late$weight <- 1 + (seq_len(nrow(late)) %% 3)
quantiles <- function(s) { q <- quantile(s, c(.25, .5, .75)); lapply(q, as.vector) }
test <- function(formula, data, rho = 0) {
  s <- survdiff(formula, data, rho = rho)
  o <- if (is.matrix(s$obs)) rowSums(s$obs) else s$obs
  e <- if (is.matrix(s$exp)) rowSums(s$exp) else s$exp
  list(observed = as.vector(o), expected = as.vector(e), variance = as.vector(s$var),
    chiSquare = s$chisq)
}
rmst <- function(formula, data, tau) {
  s <- summary(survfit(formula, data), rmean = tau)$table; unname(s[c("rmean", "se(rmean)")])
}
# weighted tests of two groups written out, since survdiff has only rho
weighted <- function(time, status, group, weight) {
  one <- group == group[1]; t <- sort(unique(time[status == 1])); S <- P <- 1; U <- V <- 0
  for (u in t) {
    n <- sum(time >= u); n1 <- sum(time[one] >= u); d <- sum(time == u & status == 1)
    d1 <- sum(time[one] == u & status[one] == 1); P <- P * (1 - d / (n + 1))
    w <- switch(weight, gehan = n, tarone = sqrt(n), peto = P, late = 1 - S, both = sqrt(S) * (1 - S)^2)
    U <- U + w * (d1 - d * n1 / n)
    if (n > 1) V <- V + w^2 * d * (n - d) / (n - 1) * n1 / n * (1 - n1 / n)
    S <- S * (1 - d / n)
  }
  U^2 / V
}
weightings <- function(time, status, group) sapply(c(gehan = "gehan", tarone = "tarone", peto = "peto",
  late = "late", both = "both"), function(w) weighted(time, status, group, w), simplify = FALSE)
# equality of several curves at one time on the scale of ln(-ln S), by contrasts with the first (Klein et al. 2007)
equalAt <- function(formula, data, at) { s <- summary(survfit(formula, data), times = at); g <- log(-log(s$surv)); v <- (s$std.err / (s$surv * log(s$surv)))^2
  C <- cbind(1, -diag(length(g) - 1)); d <- C %*% g; drop(t(d) %*% solve(C %*% diag(v) %*% t(C)) %*% d) }
# difference of two curves at one time with limits from those of each (Zou and Donner 2008)
differenceAt <- function(formula, data, at) {
  s <- summary(survfit(formula, data, conf.type = "log-log"), times = at); d <- s$surv[1] - s$surv[2]
  c(d, d - sqrt((s$surv[1] - s$lower[1])^2 + (s$upper[2] - s$surv[2])^2),
    d + sqrt((s$upper[1] - s$surv[1])^2 + (s$surv[2] - s$lower[2])^2))
}
trend <- function(formula, data, score) {
  s <- survdiff(formula, data); d <- s$obs - s$exp; sum(score * d) / sqrt(drop(score %*% s$var %*% score))
}
reverse <- function(time, status) {   # events before censorings at ties
  u <- sort(unique(time[status == 0])); n <- sapply(u, function(x) sum(time >= x) - sum(time == x & status == 1))
  d <- sapply(u, function(x) sum(time == x & status == 0)); list(time = u, survival = cumprod(1 - d / n))
}
stays <- function(k, a) {   # a Brownian bridge within -+k on [0, a], by quadrature over its end
  f <- function(y) sapply(y, function(y) { m <- -30:30; sum((-1)^m * exp(2 * m * k * (y - m * k) / a)) * dnorm(y, 0, sqrt(a * (1 - a))) })
  integrate(f, -k, k, rel.tol = 1e-11)$value
}
# landmark: difference of two curves at one time, plain Greenwood
at <- function(formula, data, times) {
  s <- summary(survfit(formula, data, conf.type = "log-log"), times = times)
  list(survival = s$surv, standardError = s$std.err, atRisk = s$n.risk)
}
# with a cluster survfit's std.err is that of the survival itself, not of its logarithm
ij <- survfit(Surv(futime, status) ~ 1, ret, cluster = id)
out <- list(
  versions = list(R = as.character(getRversion()), survival = as.character(packageVersion("survival"))),
  sixMp = lapply(setNames(kinds, kinds), function(k) curve(Surv(time, status) ~ 1, mp, k)),
  placebo = curve(Surv(time, status) ~ 1, pl),
  pooled = curve(Surv(time, status) ~ 1, fr),
  maintained = curve(Surv(time, status) ~ 1, aml[aml$x == "Maintained", ]),
  lung = curve(Surv(time, event) ~ 1, lung),
  lungReverse = quantiles(survfit(Surv(time, !event) ~ 1, lung)),
  lungLate = late,
  lungDelayed = curve(Surv(entry, time, event) ~ 1, late),
  lungDelayedWeighted = {
    s <- survfit(Surv(entry, time, event) ~ 1, late[rep(seq_len(nrow(late)), late$weight), ],
      conf.type = "log-log")
    list(time = s$time, survival = s$surv, standardError = s$surv * s$std.err, atRisk = s$n.risk)
  },
  retinopathy = curve(Surv(futime, status) ~ 1, ret),
  quantiles = list(
    lung = quantiles(survfit(Surv(time, event) ~ 1, lung, conf.type = "log-log")),
    lungLog = quantiles(survfit(Surv(time, event) ~ 1, lung, conf.type = "log")),
    placebo = quantiles(survfit(Surv(time, status) ~ 1, pl, conf.type = "log-log")),
    sixMp = quantiles(survfit(Surv(time, status) ~ 1, mp, conf.type = "log-log")),
    even = quantiles(survfit(Surv(1:8, rep(1, 8)) ~ 1, conf.type = "log-log"))),
  rmst = list(sixMp = rmst(Surv(time, status) ~ 1, mp, 23), placebo = rmst(Surv(time, status) ~ 1, pl, 23),
    lungMale = rmst(Surv(time, event) ~ 1, lung[lung$sex == 1, ], 365),
    lungFemale = rmst(Surv(time, event) ~ 1, lung[lung$sex == 2, ], 365)),
  lungAt = at(Surv(time, event) ~ 1, lung, c(30, 180, 365, 730)),
  flemingHarringtonSurvival = survfit(Surv(time, status) ~ 1, mp, stype = 2, ctype = 2)$surv,
  clustered = {
    s <- summary(ij, times = c(12, 24, 36, 48, 60))
    list(survival = s$surv, standardError = s$std.err)
  },
  clusteredAll = list(time = ij$time, survival = ij$surv, standardError = ij$std.err),
  clusteredWeighted = {
    s <- survfit(Surv(entry, time, event) ~ 1, late, weights = weight, cluster = seq_len(nrow(late)) %/% 3)
    list(time = s$time, standardError = s$std.err)
  },
  weightings = list(freireich = weightings(fr$time, fr$status, fr$group),
    lung = weightings(lung$time, lung$event, lung$sex)),
  trend = list(plain = trend(Surv(time, event) ~ ph.ecog, lung, 1:4), uneven = trend(Surv(time, event) ~ ph.ecog, lung, c(0, 1, 4, 9))),
  reverse = list(aml = reverse(aml$time, aml$status), lung = reverse(lung$time, lung$event)),
  equalAt = list(ecog = equalAt(Surv(time, event) ~ ph.ecog, lung[lung$ph.ecog %in% 0:2, ], 180), sex = equalAt(Surv(time, event) ~ sex, lung, 365)),
  differenceAt = list(sex = differenceAt(Surv(time, event) ~ sex, lung, 365), freireich = differenceAt(Surv(time, status) ~ group, fr, 10)),
  bridge = sapply(c(.1, .25, .5, .75, .9), function(a) uniroot(function(k) stays(k, a) - .95, c(.2, 3), tol = 1e-12)$root),
  tests = list(
    freireich = test(Surv(time, status) ~ group, fr),
    freireichRho1 = test(Surv(time, status) ~ group, fr, 1),
    freireichPairs = test(Surv(time, status) ~ group + strata(pair), fr),
    aml = test(Surv(time, status) ~ x, aml), amlRho1 = test(Surv(time, status) ~ x, aml, 1),
    lungSex = test(Surv(time, event) ~ sex, lung),
    lungSexInst = test(Surv(time, event) ~ sex + strata(inst), lung[!is.na(lung$inst), ]),
    lungEcog = test(Surv(time, event) ~ ph.ecog, lung[!is.na(lung$ph.ecog), ]),
    lungEcogHalf = test(Surv(time, event) ~ ph.ecog, lung[!is.na(lung$ph.ecog), ], 0.5),
    retinopathy = test(Surv(futime, status) ~ trt, ret)))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE, na = "string"))
