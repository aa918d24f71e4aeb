# Two groups of eyes compared with errors clustered by patient. R 4.2.2, sandwich 3.0-2, jsonlite 1.8.4.
suppressMessages({library(sandwich); library(jsonlite)})
ret <- read.csv("data/retinopathy.csv"); ret$first <- as.numeric(ret$trt == 0); z <- qnorm(.975)
# HC0 with G / (G - 1); treated eyes and those of patients of odd number only, so that some give one eye
compare <- function(d) {
  byPatient <- function(g) vcovCL(g, cluster = d$id[!is.na(fitted(g))], type = "HC0", cadjust = TRUE)
  share <- lm(status ~ 0 + factor(1 - first), d); V <- byPatient(share); p <- unname(coef(share))
  limits <- function(k) { own <- d[d$first == 2 - k, ]; g <- lm(status ~ 1, own)
    v <- vcovCL(g, cluster = own$id, type = "HC0", cadjust = TRUE)[1]; n <- p[k] * (1 - p[k]) / v
    (p[k] + z^2 / (2 * n) + c(-1, 1) * z * sqrt(p[k] * (1 - p[k]) / n + z^2 / (4 * n^2))) / (1 + z^2 / n) }
  l <- limits(1); u <- limits(2); r <- V[1, 2] / sqrt(V[1, 1] * V[2, 2])
  reach <- function(a, b) sqrt(a^2 + b^2 - 2 * r * a * b)
  ratio <- function(family) { g <- glm(status ~ first, family, d, control = glm.control(1e-14, 100)); b <- unname(coef(g)[2])
    exp(b + c(0, -1, 1) * z * sqrt(byPatient(g)[2, 2])) }
  list(difference = c(p[1] - p[2], p[1] - p[2] - reach(p[1] - l[1], u[2] - p[2]), p[1] - p[2] + reach(l[2] - p[1], p[2] - u[1])),
    riskRatio = ratio(poisson), oddsRatio = ratio(binomial))
}
out <- list(versions = list(R = as.character(getRversion()), sandwich = as.character(packageVersion("sandwich"))),
  both = compare(ret), some = compare(ret[ret$first == 0 | ret$id %% 2 == 1, ]))
cat(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE))
