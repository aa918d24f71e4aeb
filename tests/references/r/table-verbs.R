# Counts, shares and summaries of published tables by general-purpose functions. R 4.2.2 (base,
# stats), jsonlite 1.8.4. Run from tests/references: Rscript r/table-verbs.R
library(jsonlite)
ucb <- read.csv("data/ucbadmissions.csv")
cross <- xtabs(Freq ~ Gender + Admit, ucb)
dept <- xtabs(Freq ~ Dept + Admit, ucb)
births <- read.csv("data/birthwt.csv")
summary_of <- function(d) list(rows = nrow(d), mean_age = mean(d$age), median_weight = median(d$bwt),
  lower = unname(quantile(d$bwt, .25)), upper = unname(quantile(d$bwt, .75)), sd_lwt = sd(d$lwt),
  low = mean(d$low == 1), least = min(d$bwt), greatest = max(d$bwt), ages = length(unique(d$age)))
box <- function(x) {
  q <- unname(quantile(x, c(.25, .5, .75))); reach <- 1.5 * (q[3] - q[1])
  inside <- x[x >= q[1] - reach & x <= q[3] + reach]
  list(lower = q[1], median = q[2], upper = q[3], least = min(inside), most = max(inside),
    beyond = as.list(sort(x[x < q[1] - reach | x > q[3] + reach])))
}
ages <- table(cut(births$age, c(-Inf, 20, 30, Inf), right = FALSE), births$smoke)
left <- data.frame(k = c("a", "b", "b", NA, "d"), x = 1:5)
right <- data.frame(k = c("b", "c", "a", NA), y = 1:4)
matched <- merge(left[!is.na(left$k), ], right[!is.na(right$k), ], by = "k")
write_json(list(
  versions = list(R = as.character(getRversion()), jsonlite = as.character(packageVersion("jsonlite"))),
  ucb = list(total = sum(cross), genders = rownames(cross), admit = colnames(cross),
    counts = unclass(cross), row = unclass(prop.table(cross, 1)), column = unclass(prop.table(cross, 2)),
    departments = unclass(dept), department_rate = unname(prop.table(dept, 1)[, "Admitted"])),
  births = list(all = summary_of(births), smoke = lapply(split(births, births$smoke), summary_of),
    bands = unname(unclass(ages)), boxes = lapply(split(births$bwt, births$race), box),
    by_weight = order(-births$bwt, seq_len(nrow(births)))[1:5]),
  merge = list(x = matched$x[order(matched$x)], y = matched$y[order(matched$x)])),
  "table-verbs.json", digits = NA, auto_unbox = TRUE, pretty = TRUE)
