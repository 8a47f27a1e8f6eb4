# Times R's survfit and survreg on the wears in a file, and prints what they give, for test/bench/wear.ts.
# Arguments: file (n doubles of days, then n bytes of 1 = leak, 0 = planned change), n, repeats.
suppressMessages(library(survival))
arguments <- commandArgs(trailingOnly = TRUE)
n <- as.integer(arguments[2])
repeats <- as.integer(arguments[3])
connection <- file(arguments[1], "rb")
days <- readBin(connection, "double", n)
leak <- as.integer(readBin(connection, "raw", n))
close(connection)

elapsed <- function(work) {
  before <- proc.time()[["elapsed"]]
  value <- work()
  list(value = value, ms = 1000 * (proc.time()[["elapsed"]] - before))
}
curveMs <- fitMs <- numeric(repeats)
for (i in seq_len(repeats)) {
  curve <- elapsed(function() survfit(Surv(days, leak) ~ 1, conf.type = "log-log"))
  fit <- elapsed(function() survreg(Surv(days, leak) ~ 1, dist = "weibull"))
  curveMs[i] <- curve$ms
  fitMs[i] <- fit$ms
}
rows <- length(curve$value$time)
shown <- unique(round(seq(1, rows, length.out = 1001)))
number <- function(x) paste(formatC(x, digits = 17, format = "g"), collapse = " ")
cat(as.character(packageVersion("survival")), "\n")
cat(number(curveMs), "\n")
cat(number(fitMs), "\n")
cat(rows, number(1 / fit$value$scale), number(exp(coef(fit$value))), "\n")
cat(number(shown - 1), "\n")
cat(number(curve$value$surv[shown]), "\n")
cat(number(curve$value$lower[shown]), "\n")
