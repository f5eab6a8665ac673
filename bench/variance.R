# variance.R DATA: the same fit by lme4, without intervals.
suppressMessages(library(lme4))
source("bench/timing.R")
d <- read.csv(commandArgs(TRUE)[1], stringsAsFactors = TRUE)
fit <- NULL
timing("REML, 100,000 rows in 25,000 batches of 7 groups",
  function() fit <<- lmer(y ~ mix + (1 | batch), d), 5)
v <- as.data.frame(VarCorr(fit))$vcov
cat(sprintf("lme4, without intervals: between %.10g, within %.10g\n", v[1], v[2]))
