# From a CSV file of benchmark data to a Cox model, as a whole process. Usage: Rscript file-to-cox.R <file.csv>
suppressMessages(library(survival))
d <- read.csv(commandArgs(TRUE)[1])
covariates <- paste(grep("^x", names(d), value = TRUE), collapse = " + ")
print(coef(coxph(as.formula(paste("Surv(days, event) ~", covariates)), d)))
