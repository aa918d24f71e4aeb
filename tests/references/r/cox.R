# Cox regression, its residuals and tests, concordance. R 4.2.2, survival 3.5-3, jsonlite 1.8.4.
# The penalised fit, which survival does not have, is maximised here from its definition.
suppressMessages({library(survival); library(jsonlite)})
fr <- read.csv("data/freireich.csv"); fr$placebo <- as.numeric(fr$group != "6-MP")
lung <- read.csv("data/lung.csv"); lung$event <- as.numeric(lung$status == 2)
lung <- lung[!is.na(lung$ph.ecog) & !is.na(lung$inst), ]
set.seed(5); lung$entry <- floor(lung$time * runif(nrow(lung)) * .5); lung$weight <- 1 + (seq_len(nrow(lung)) %% 3) / 2
lung$week <- ceiling(lung$time / 30)
ret <- read.csv("data/retinopathy.csv"); ret$adult <- as.numeric(ret$type == "adult")
ctl <- coxph.control(eps = 1e-12, toler.chol = 1e-14, iter.max = 50)
fit <- function(formula, data, ties = "efron", ...) {
  extra <- as.list(substitute(list(...)))[-1]
  f <- eval(as.call(c(quote(coxph), formula, list(data = quote(data), ties = ties, control = quote(ctl)), extra)))
  s <- summary(f)
  out <- list(coefficients = unname(coef(f)), standardErrors = unname(s$coefficients[, "se(coef)"]),
    logLikelihood = f$loglik[2], nullLogLikelihood = f$loglik[1], score = unname(s$sctest[1]), wald = unname(f$wald.test),
    ties = ties)
  if (!is.null(f$naive.var)) out$robust <- unname(sqrt(diag(f$var)))
  out
}
zph <- function(formula, data, ties = "efron", transform = "km", ...) {
  z <- cox.zph(coxph(formula, data, ties = ties, control = ctl, model = TRUE, ...), transform = transform, terms = FALSE)
  unname(z$table[, "chisq"])
}
base3 <- Surv(week, event) ~ age + sex + ph.ecog
three <- coxph(base3, lung, control = ctl)
conc <- function(formula, data, ...) { extra <- as.list(substitute(list(...)))[-1]
  k <- eval(as.call(c(quote(concordance), formula, list(data = quote(data), reverse = TRUE), extra)))
  c <- if (is.matrix(k$count)) colSums(k$count) else k$count
  list(estimate = unname(k$concordance), standardError = sqrt(as.vector(k$var)), counts = unname(c[1:3])) }
sf <- survfit(three, newdata = data.frame(age = c(0, 60), sex = c(0, 2), ph.ecog = c(0, 1)))
det0 <- residuals(three, "martingale")
strat <- coxph(Surv(week, event) ~ age + ph.ecog + strata(sex), lung, control = ctl)
sfs <- survfit(strat, newdata = data.frame(age = 60, ph.ecog = 1))
firth <- function(formula, data, ties) {
  p <- ncol(model.matrix(formula, data)) - 1
  pen <- function(b) { f <- coxph(formula, data, ties = ties, init = b, control = coxph.control(iter.max = 0))
    f$loglik[2] - determinant(as.matrix(f$var))$modulus / 2 }
  o <- optim(rep(0, p), function(b) -pen(b), method = "BFGS", control = list(reltol = 1e-15, ndeps = rep(1e-5, p), maxit = 500))
  o <- optim(o$par, function(b) -pen(b), method = if (p > 1) "Nelder-Mead" else "BFGS", control = list(reltol = 1e-15, maxit = 2000))
  f <- coxph(formula, data, ties = ties, init = o$par, control = coxph.control(iter.max = 0))
  profile <- function(j, v) if (p == 1) pen(v) else { g <- function(r) { b <- numeric(p); b[j] <- v; b[-j] <- r; -pen(b) }
    -(if (p == 2) optimize(g, o$par[-j] + c(-5, 5), tol = 1e-10)$objective else optim(o$par[-j], g, control = list(reltol = 1e-14))$value) }
  lim <- t(sapply(seq_len(p), function(j) { e <- function(v) -o$value - profile(j, v) - qchisq(.95, 1) / 2
    s <- sqrt(diag(as.matrix(f$var)))[j]
    c(uniroot(e, c(o$par[j] - 8 * s, o$par[j]), tol = 1e-9)$root, uniroot(e, c(o$par[j], o$par[j] + 8 * s), tol = 1e-9)$root) }))
  list(coefficients = o$par, standardErrors = sqrt(diag(as.matrix(f$var))), value = -o$value, zero = as.numeric(pen(rep(0, p))),
    limits = lim, chiSquare = sapply(seq_len(p), function(j) 2 * (-o$value - profile(j, 0))))
}
mono <- data.frame(time = c(3, 5, 6, 8, 9, 12, 14, 15, 17, 20), event = c(1, 1, 1, 1, 0, 0, 1, 0, 0, 0), x = c(1, 1, 1, 1, 0, 0, 1, 0, 0, 0), z = c(.3, 1.1, -.5, .2, .9, -1.2, .4, .1, -.6, .8))
out <- list(
  versions = list(R = as.character(getRversion()), survival = as.character(packageVersion("survival"))),
  lung = lung[, c("time", "week", "event", "age", "sex", "ph.ecog", "inst", "entry", "weight")],
  freireich = lapply(c("efron", "breslow", "exact"), function(t) fit(Surv(time, status) ~ placebo, fr, t)),
  freireichPairs = fit(Surv(time, status) ~ placebo + strata(pair), fr),
  freireichCluster = fit(Surv(time, status) ~ placebo, fr, cluster = pair),
  lungTies = lapply(c("efron", "breslow", "exact"), function(t) fit(base3, lung, t)),
  lungDays = fit(Surv(time, event) ~ age + sex + ph.ecog, lung),
  lungStrata = fit(Surv(week, event) ~ age + ph.ecog + strata(sex), lung),
  lungEntry = lapply(c("efron", "breslow"), function(t) fit(Surv(entry, time, event) ~ age + sex + ph.ecog, lung, t)),
  lungWeight = lapply(c("efron", "breslow"), function(t) fit(base3, lung, t, weights = weight, cluster = inst)),
  lungAll = fit(Surv(entry, time, event) ~ age + ph.ecog + strata(sex), lung, weights = weight, cluster = inst),
  retinopathy = lapply(c("efron", "breslow"), function(t) list(
    trt = fit(Surv(futime, status) ~ trt, ret, t, cluster = id),
    interaction = fit(Surv(futime, status) ~ trt * adult, ret, t, cluster = id),
    risk = fit(Surv(futime, status) ~ trt + adult + risk, ret, t, cluster = id))),
  retinopathyPairs = fit(Surv(futime, status) ~ trt + strata(id), ret),
  martingale = unname(det0), deviance = unname(residuals(three, "deviance")), dfbeta = unname(residuals(three, "dfbeta")), dfbetas = unname(residuals(three, "dfbetas")),
  weightedDfbeta = unname(residuals(coxph(Surv(entry, time, event) ~ age + ph.ecog + strata(sex), lung, weights = weight, control = ctl), "dfbeta", weighted = TRUE)), score = unname(residuals(three, "score")),
  breslowScore = unname(residuals(coxph(base3, lung, ties = "breslow", control = ctl), "score")),
  schoenfeld = { s <- residuals(three, "schoenfeld"); rowsum(unname(s), as.numeric(rownames(s))) },
  zph = list(km = zph(base3, lung), identity = zph(base3, lung, transform = "identity"), rank = zph(base3, lung, transform = "rank"),
    log = zph(base3, lung, transform = "log"), breslow = zph(base3, lung, "breslow"),
    strata = zph(Surv(week, event) ~ age + ph.ecog + strata(sex), lung), entry = zph(Surv(entry, time, event) ~ age + sex + ph.ecog, lung),
    retinopathy = zph(Surv(futime, status) ~ trt + adult + risk, ret), freireich = zph(Surv(time, status) ~ placebo, fr)),
  concordance = list(model = conc(Surv(week, event) ~ predict(three), lung), age = conc(Surv(time, event) ~ age, lung),
    strata = conc(Surv(week, event) ~ age + strata(sex), lung), entry = conc(Surv(entry, time, event) ~ age, lung),
    weeks = conc(Surv(floor(entry / 7), week, event) ~ age + strata(sex), lung[floor(lung$entry / 7) < lung$week, ]), cluster = conc(Surv(week, event) ~ age, lung, cluster = inst),
    freireich = conc(Surv(time, status) ~ placebo, fr)),
  baseline = list(time = sf$time[sf$n.event > 0], hazard = sf$cumhaz[sf$n.event > 0, ], error = (sf$std.err)[sf$n.event > 0, ]),
  strataBaseline = list(time = sfs$time, strata = unname(sfs$strata), hazard = sfs$cumhaz, events = sfs$n.event),
  mono = mono,
  firth = list(mono = firth(Surv(time, event) ~ x + z, mono, "efron"), freireich = firth(Surv(time, status) ~ placebo, fr, "efron"),
    breslow = firth(Surv(time, status) ~ placebo, fr, "breslow")))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, na = "string"))
