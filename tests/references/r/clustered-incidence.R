# Cumulative incidence with errors clustered by patient: the jackknife written out as derivatives by the
# weight of a patient, since survfit takes no clusters with several causes; the estimate and the error of
# eyes that are independent by survfit. R 4.2.2, survival 3.5-3, jsonlite 1.8.4.
suppressMessages({library(survival); library(jsonlite)})
ret <- read.csv("data/retinopathy.csv")
# Two causes by a rule of ours, so that they compete: every third patient's loss is of the second.
ret$cause <- ifelse(ret$status == 0, 0, ifelse(ret$id %% 3 == 0, 2, 1))
times <- c(6, 18, 36, 60)
incidence <- function(d, w, t) {
  S <- 1; F <- c(0, 0)
  for (u in sort(unique(d$futime[d$cause > 0 & d$futime <= t]))) {
    n <- sum(w[d$futime >= u]); h <- sapply(1:2, function(k) sum(w[d$futime == u & d$cause == k])) / n
    F <- F + S * h; S <- S * (1 - sum(h))
  }
  F
}
errors <- function(d, by, t) {
  w <- rep(1, nrow(d)); e <- 1e-4
  moved <- function(i, s) { v <- w; v[by == i] <- 1 + s; incidence(d, v, t) }
  sqrt(rowSums(sapply(unique(by), function(i) ((moved(i, e) - moved(i, -e)) / (2 * e))^2)))
}
read <- function(d) {
  fit <- summary(survfit(Surv(futime, factor(cause, 0:2)) ~ 1, data = d), times = times)
  list(incidence = t(fit$pstate[, 2:3]), alone = t(fit$std.err[, 2:3]),
    clustered = sapply(times, function(t) errors(d, d$id, t)))
}
out <- list(versions = list(R = as.character(getRversion()), survival = as.character(packageVersion("survival"))),
  times = times, both = read(ret),
  # treated eyes, and untreated ones of patients of odd number: some patients give one eye
  some = read(ret[ret$trt == 1 | ret$id %% 2 == 1, ]))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE))
