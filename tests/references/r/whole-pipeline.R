# The whole way from a file of operations to rates, curves, test and causes, written again in R
# from the stated rules and from nothing of the product: an outside check of every number.
#   Rscript whole-pipeline.R cases.csv
# prints JSON. Needs the packages survival and jsonlite.
# Rules: failure is redetachment; oil is followed from its removal; the window is 365 days.

suppressPackageStartupMessages({library(survival); library(jsonlite)})
options(digits = 15)

file <- commandArgs(trailingOnly = TRUE)[1]
today <- 20543 # 2026-03-31: later days have not come yet
raw <- read.csv(file, colClasses = "character", check.names = FALSE, fill = TRUE,
                blank.lines.skip = TRUE, na.strings = NULL)
spelling <- c("date of operation" = "operation_date", "Surgeon" = "surgeon",
              "lens status" = "lens", "preop VA" = "acuity_before", "postop VA" = "acuity_after")
known <- names(raw) %in% names(spelling)
names(raw)[known] <- spelling[names(raw)[known]]

text <- function(field) {
  value <- trimws(raw[[field]])
  value[is.na(value) | value == ""] <- NA
  value
}
day <- function(field) {
  value <- text(field)
  iso <- grepl("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", value)
  value[!iso] <- NA
  days <- as.integer(as.Date(value, format = "%Y-%m-%d"))
  days[!is.na(days) & days > today] <- NA
  days
}
yes <- function(field) tolower(text(field)) %in% c("yes", "y", "true", "1")

techniques <- c("scleral buckle", "vitrectomy", "vitrectomy with buckle", "pneumatic retinopexy",
                "laser or cryo alone", "buckle revision", "gas injection", "oil removal", "other")
d <- data.frame(
  patient = text("patient"), eye = text("eye"), operated = day("operation_date"),
  number = suppressWarnings(as.integer(text("operation_number"))),
  technique = ifelse(text("technique") %in% techniques, text("technique"), NA),
  seen = day("last_seen_date"), status = text("status_last_seen"),
  redetached = day("redetachment_date"), never = yes("never_attached"),
  cause = text("failure_cause"), tamponade = text("tamponade"),
  unreadable = !is.na(text("redetachment_date")) & is.na(day("redetachment_date")),
  oil_out = day("oil_removed_date"), died = day("death_date"), stringsAsFactors = FALSE)
statuses <- c("attached", "attached under oil", "under observation", "detached", "unknown")
d$status[!(d$status %in% statuses)] <- NA
read <- nrow(d)

# Rows that cannot be believed are left out, each for the first reason that holds; so is every
# other row of such an eye, except where the row only says again what another says.
key <- paste(d$patient, d$eye, d$operated)
below <- rowSums(!is.na(d[, c("eye", "operated", "technique")])) == 0
twice <- !below & duplicated(key)
backwards <- !is.na(d$seen) & !is.na(d$operated) & d$seen < d$operated
early <- !is.na(d$redetached) & !is.na(d$operated) & d$redetached < d$operated
# A redetachment no earlier than the eye's operation before led to this one, and is of that one.
before <- vapply(seq_len(nrow(d)), function(i) {
  if (!early[i] || is.na(d$patient[i]) || is.na(d$eye[i])) return(NA_real_)
  same <- which(d$patient == d$patient[i] & d$eye == d$eye[i] & d$operated < d$operated[i])
  if (length(same) == 0) NA_real_ else as.numeric(max(d$operated[same]))
}, numeric(1))
early <- early & (is.na(before) | d$redetached < before)
stopped_eyes <- paste(d$patient, d$eye)[backwards | early]
keep <- !(below | twice | backwards | early)
rows_kept <- sum(keep)
d <- d[keep, ]
d <- d[!(paste(d$patient, d$eye) %in% stopped_eyes), ]

# One episode an eye.
sideless <- d$patient[is.na(d$eye)]
d <- d[!is.na(d$eye) & !is.na(d$patient), ]
groups <- split(d, paste(d$patient, d$eye))
first_of <- function(x) if (all(is.na(x))) NA else min(x, na.rm = TRUE)
repairs <- c("scleral buckle", "vitrectomy", "vitrectomy with buckle", "pneumatic retinopexy",
             "buckle revision", "gas injection")
episode <- function(g) {
  g <- g[order(g$operated, g$number), ]
  p <- g[1, ]
  if (!is.na(p$number) && p$number > 1) return(NULL)
  if (!is.na(p$technique) && p$technique %in% c("buckle revision", "gas injection", "oil removal"))
    return(NULL)
  # A later operation is for the detachment where it is a repair, or where the eye was detached.
  n <- nrow(g)
  before <- if (n > 1) g$status[-n] else character(0)
  later <- g[-1, ]
  removal <- !is.na(later$technique) & later$technique == "oil removal"
  repair <- !removal & (later$technique %in% repairs | (!is.na(before) & before == "detached"))
  doubtful <- !removal & !repair & !(!is.na(before) & before == "attached")
  again <- later[repair, ]
  course <- rbind(p, later[!repair, ])
  reoperated <- first_of(again$operated)
  led <- head(again$redetached, 1)
  led <- led[!is.na(led) & led < head(again$operated, 1)]
  failed <- first_of(c(course$redetached, led, reoperated))
  if (p$never) failed <- p$operated
  # The last visit and how the eye stood then; of several on one day the later row's counts.
  visits <- NULL
  for (i in seq_len(n)) {
    r <- g[i, ]
    visits <- rbind(visits, data.frame(day = r$operated, status = NA),
                    data.frame(day = r$redetached, status = "detached"),
                    data.frame(day = r$seen, status = r$status))
  }
  visits <- visits[!is.na(visits$day), ]
  last <- max(visits$day)
  status <- tail(visits$status[visits$day == last], 1)
  if (is.na(status)) status <- "unknown"
  doubt <- any(doubtful) || any(!is.na(g$cause)) || any(g$unreadable) || p$patient %in% sideless
  died <- first_of(g$died)
  undecided <- FALSE
  event <- !is.na(failed)
  if (event) {
    time <- failed - p$operated
  } else if (status == "detached") {
    event <- TRUE; failed <- last; time <- last - p$operated
  } else if (doubt || status == "unknown") {
    time <- 0; undecided <- TRUE
  } else {
    time <- last - p$operated
    undecided <- status == "under observation"
    if (!undecided && !is.na(died) && died - last <= 91) time <- died - p$operated
  }
  # Oil: the clock starts when it comes out; one that failed before has failed on day 0.
  stated <- tail(na.omit(g$status), 1)
  stated_in <- length(stated) == 1 && stated == "attached under oil"
  oil <- g$operated[!is.na(g$tamponade) & g$tamponade == "silicone oil"]
  if (length(oil) > 0 || stated_in) {
    inserted <- if (length(oil) > 0) min(oil) else p$operated
    out <- c(g$oil_out, g$operated[!is.na(g$technique) & g$technique == "oil removal"])
    out <- if (length(oil) > 0) out[!is.na(out) & out >= inserted] else numeric(0)
    removed <- if (length(out) == 0) NA else min(out)
    still <- stated_in || length(out) == 0 || max(oil) > max(out)
    if (inserted > p$operated) {
      if (!event && still) { time <- inserted - p$operated; undecided <- TRUE }
    } else if (event && (is.na(removed) || failed < removed)) {
      time <- 0
    } else if (is.na(removed) || (still && !event)) {
      time <- 0; event <- FALSE; undecided <- TRUE
    } else {
      time <- max(0, time - (removed - p$operated))
    }
  }
  why <- na.omit(c(course$cause, head(again$cause, 1)))
  data.frame(patient = p$patient, technique = if (is.na(p$technique)) "not recorded" else p$technique,
             time = time, event = event, undecided = undecided && !event,
             cause = if (length(why) == 0) NA else why[1], stringsAsFactors = FALSE)
}
eyes <- do.call(rbind, lapply(groups, episode))

window <- 365
beyond <- eyes$time > window
eyes$event[beyond] <- FALSE
eyes$time[beyond] <- window

known_at <- function(e) (e$event & e$time <= window) | (!e$event & !e$undecided & e$time >= window)
wilson <- function(x, n) {
  if (n == 0) return(c(NA, NA))
  as.numeric(suppressWarnings(prop.test(x, n, correct = FALSE))$conf.int)
}
# Where a patient gives two of the eyes: the ratio estimator's variance over that of independent eyes
# is the design effect, and Wilson's interval is taken at that many eyes fewer.
share <- function(failed, patient) {
  n <- length(failed)
  if (!anyDuplicated(patient)) return(wilson(sum(failed), n))
  p <- mean(failed)
  x <- tapply(failed, patient, sum)
  m <- tapply(failed, patient, length)
  g <- length(m)
  variance <- g / (g - 1) * sum((x - p * m)^2) / sum(m)^2
  effect <- if (p == 0 || p == 1 || variance == 0) n / g else variance / (p * (1 - p) / n)
  z2 <- qnorm(0.975)^2
  k <- n / effect
  (p + z2 / (2 * k) + c(-1, 1) * sqrt(z2 * p * (1 - p) / k + z2^2 / (4 * k^2))) / (1 + z2 / k)
}
landmarks <- c(30, 91, 183, 365)
of_group <- function(e) {
  known <- known_at(e)
  failed <- sum(e$event)
  fit <- if (anyDuplicated(e$patient)) {
    survfit(Surv(time, event) ~ 1, data = e, conf.type = "log-log", cluster = patient)
  } else {
    survfit(Surv(time, event) ~ 1, data = e, conf.type = "log-log")
  }
  at <- summary(fit, times = landmarks[landmarks <= max(e$time)], extend = FALSE)
  ci <- share(e$event[known], e$patient[known])
  list(eyes = nrow(e), failed = failed, known = sum(known), lower = ci[1], upper = ci[2],
       survival = at$surv, standard_error = at$std.err)
}
used <- eyes[eyes$technique != "", ]
# Eyes whose technique is not recorded are no group of their own in the test.
test <- survdiff(Surv(time, event) ~ technique, data = used[used$technique != "not recorded", ])
causes <- eyes$cause[eyes$event]
causes[is.na(causes)] <- "not recorded"
counted <- table(unlist(strsplit(causes, ";")))

cat(toJSON(list(
  r = R.version.string, survival = as.character(packageVersion("survival")),
  rows_read = read, rows_kept = rows_kept,
  all = of_group(eyes),
  by_technique = lapply(split(used, used$technique), of_group),
  log_rank = list(chi_square = test$chisq,
                  observed = as.list(setNames(test$obs, sub("technique=", "", names(test$n)))),
                  expected = as.list(setNames(test$exp, sub("technique=", "", names(test$n))))),
  causes = as.list(counted)
), auto_unbox = TRUE, digits = NA, pretty = TRUE), "\n")
