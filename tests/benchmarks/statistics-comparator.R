# Times of R's survival, cmprsk and stats on a CSV file of benchmark data, as JSON: the median of the runs of
# a second, in milliseconds. Usage: Rscript statistics-comparator.R <file.csv>
suppressMessages({library(survival); library(cmprsk); library(jsonlite)})
d <- read.csv(commandArgs(TRUE)[1]); x <- as.matrix(d[, grep("^x", names(d))])
f <- as.formula(paste("Surv(days, event) ~", paste(colnames(x), collapse = " + ")))
g <- as.formula(paste("outcome ~", paste(colnames(x), collapse = " + ")))
now <- function() as.numeric(Sys.time())
fine <- function(e) { e <- substitute(e); times <- c(); start <- now()
  repeat { before <- now(); eval(e, globalenv()); times <- c(times, now() - before)
    if (now() - start > 1 && length(times) >= 3) break }
  1000 * median(times) }
fit <- coxph(f, d, model = TRUE)
cusum <- function(y, p) { w <- log(2) * y - log1p(p); s <- numeric(length(w)); v <- 0
  for (i in seq_along(w)) { v <- max(0, v + w[i]); if (v >= 4.5) v <- 0; s[i] <- v }
  s }
out <- list(
  kaplanMeier = fine(survfit(Surv(days, event) ~ 1, d, conf.type = "log-log")),
  kaplanMeierContinuous = fine(survfit(Surv(time, event) ~ 1, d, conf.type = "log-log")),
  logRank = fine(survdiff(Surv(days, event) ~ group, d)),
  stratifiedLogRank = fine(survdiff(Surv(days, event) ~ group + strata(stratum), d)),
  logRankContinuous = fine(survdiff(Surv(time, event) ~ group, d)),
  aalenJohansen = fine(cuminc(d$days, d$cause)),
  aalenJohansenContinuous = fine(cuminc(d$time, d$cause)),
  groupRateAndCurve = fine({ own <- d[d$group == 1, ]; prop.test(sum(own$outcome), nrow(own), correct = FALSE)
    survfit(Surv(days, event) ~ 1, own, conf.type = "log-log") }),
  cox = fine(coxph(f, d)),
  coxFitAlone = fine(coxph.fit(x, Surv(d$days, d$event), NULL, NULL, NULL, coxph.control(), NULL, "efron", NULL)),
  coxRestarted = fine(coxph(f, d)), riskAdjustedCusum = fine(cusum(d$outcome, d$risk)),
  proportionalHazards = fine(cox.zph(fit, terms = FALSE)),
  logistic = fine(glm(g, binomial, d)))
if (requireNamespace("data.table", quietly = TRUE)) {
  suppressMessages(library(data.table)); rows <- as.data.table(d["group"])
  out$countsByGroup <- fine(rows[, .N, by = group]) }
if (nrow(d) <= 20000) out$fineGray <- 1000 * system.time(crr(d$days, d$cause, x))[[1]]
cat(toJSON(out, auto_unbox = TRUE, digits = NA))
