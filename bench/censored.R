# The part of bench/censored.sh that is the peer's: makes the readings
# (Rscript censored.R make FILE), or fits them by survreg and prints the median
# time of five fits and what they gave (Rscript censored.R fit FILE).
args <- commandArgs(TRUE)
if (args[1] == "make") {
  set.seed(11)
  n <- 100000
  g <- rep_len(0:6, n)
  y <- exp(5.7 + .1 * g + .2 * rnorm(n))
  if (args[2] == "steps") {
    lo <- floor(y / 40) * 40
    hi <- lo + 40
  } else {
    lo <- y * (1 - .15 * runif(n))
    hi <- y * (1 + .15 * runif(n))
  }
  write.csv(data.frame(g, lo, hi), args[3], row.names = FALSE, quote = FALSE)
} else {
  suppressMessages(library(survival))
  d <- read.csv(args[2])
  d$g <- factor(d$g)
  sv <- with(d, Surv(ifelse(lo == 0, NA, lo), hi, type = "interval2"))
  took <- replicate(5, system.time(
    f <<- survreg(sv ~ 0 + g, d, dist = "lognormal"))[["elapsed"]])
  cat(sprintf("%.6f %.12g %.12g %.12g\n", median(took), coef(f)[1], f$scale,
    f$loglik[2]))
}
