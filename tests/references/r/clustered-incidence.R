# Cumulative incidence with errors clustered by patient. R 4.2.2, survival 3.5-3, jsonlite 1.8.4.
suppressMessages({library(survival); library(jsonlite)})
ret <- read.csv("data/retinopathy.csv")
# Two causes by a rule of ours, so that they compete: every third patient's loss is of the second.
ret$cause <- ifelse(ret$status == 0, 0, ifelse(ret$id %% 3 == 0, 2, 1))
times <- c(6, 18, 36, 60)
read <- function(d) {
  fit <- survfit(Surv(futime, factor(cause, 0:2)) ~ 1, data = d, cluster = id, robust = TRUE)
  at <- summary(fit, times = times)
  list(incidence = t(at$pstate[, 2:3]), error = t(at$std.err[, 2:3]))
}
out <- list(versions = list(R = as.character(getRversion()), survival = as.character(packageVersion("survival"))),
  times = times, both = read(ret),
  # treated eyes, and untreated ones of patients of odd number: some patients give one eye
  some = read(ret[ret$trt == 1 | ret$id %% 2 == 1, ]))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE))
