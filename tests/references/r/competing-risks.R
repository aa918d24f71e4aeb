# Cumulative incidence and Gray's test. R 4.2.2, cmprsk 2.2-11, survival 3.5-3, jsonlite 1.8.4.
suppressMessages({library(cmprsk); library(survival); library(jsonlite)})
small <- read.csv("data/competing_small.csv"); ex <- read.csv("data/cmprsk_example.csv")
lung <- read.csv("data/lung.csv")
# a second data set with many ties: lung, weeks, cause by an arbitrary rule fixed here
lung$week <- ceiling(lung$time / 7); lung$cause <- ifelse(lung$status == 1, 0, ifelse(lung$age %% 3 == 0, 2, 1))
lung <- lung[!is.na(lung$ph.ecog) & lung$ph.ecog < 3, ]
curves <- function(time, cause) {
  s <- survfit(Surv(time, factor(cause, 0:2)) ~ 1)
  g <- cuminc(time, cause, cencode = 0); at <- timepoints(g, s$time)
  list(time = s$time, incidence = list(s$pstate[, 2], s$pstate[, 3]), survival = s$pstate[, 1],
    standardError = list(s$std.err[, 2], s$std.err[, 3]),
    gray = list(as.vector(at$var["1 1", ]), as.vector(at$var["1 2", ])))
}
gray <- function(...) as.list(setNames(cuminc(...)$Tests[, "stat"], c("one", "two")))
# Fine and Gray's regression: coefficients, their covariance, the log-likelihoods, one incidence
fineGray <- function(time, cause, x, at, values) {
  f <- crr(time, cause, x, gtol = 1e-12, maxiter = 50); p <- predict(f, values)
  list(coefficients = as.vector(f$coef), covariance = as.vector(f$var), logLikelihood = f$loglik,
    nullLogLikelihood = f$loglik.null, incidence = p[sum(p[, 1] <= at), 2])
}
# causes taken as events of their own, others as censored
causeSpecific <- function(time, cause, x) as.vector(coef(coxph(Surv(time, cause == 1) ~ x)))
# errors by patient from the weighted rows of finegray, which take the estimate of censoring as known
ret <- read.csv("data/retinopathy.csv"); ret$adult <- as.numeric(ret$type == "adult"); ret$cause <- ifelse(ret$status == 0, 0, ifelse(ret$age %% 4 == 0, 2, 1))
fg <- finegray(Surv(futime, factor(cause, 0:2)) ~ ., ret, etype = "1")
byPatient <- coxph(Surv(fgstart, fgstop, fgstatus) ~ trt + adult, fg, weights = fgwt, ties = "breslow", cluster = id)
exX <- cbind(ex$group == "b", ex$stratum == 2) + 0; lungX <- as.matrix(lung[, c("ph.ecog", "sex")])
out <- list(versions = list(R = as.character(getRversion()), cmprsk = as.character(packageVersion("cmprsk")),
    survival = as.character(packageVersion("survival"))),
  small = curves(small$time, small$event), example = curves(ex$time, ex$event), lung = curves(lung$week, lung$cause),
  lungData = lung[, c("week", "cause", "ph.ecog", "sex")],
  gray = list(small = gray(small$time, small$event, small$group), example = gray(ex$time, ex$event, ex$group),
    exampleStrata = gray(ex$time, ex$event, ex$group, ex$stratum),
    lung = gray(lung$week, lung$cause, lung$ph.ecog), lungStrata = gray(lung$week, lung$cause, lung$ph.ecog, lung$sex),
    lungRho = gray(lung$week, lung$cause, lung$ph.ecog, rho = 1), lungSex = gray(lung$week, lung$cause, lung$sex)),
  fineGray = list(example = fineGray(ex$time, ex$event, exX, 0.5, c(1, 0)),
    lung = fineGray(lung$week, lung$cause, lungX, 50, c(1, 2)),
    lungOther = fineGray(lung$week, ifelse(lung$cause == 0, 0, 3 - lung$cause), lungX, 50, c(1, 2))),
  fineGrayClustered = unname(sqrt(diag(byPatient$var))),
  causeSpecific = list(example = causeSpecific(ex$time, ex$event, exX), lung = causeSpecific(lung$week, lung$cause, lungX)))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, na = "string"))
