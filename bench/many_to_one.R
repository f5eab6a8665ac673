# many_to_one.R: the same by multcomp at its default, good to some 4e-4.
suppressMessages(library(multcomp))
source("bench/timing.R")
d <- read.csv("tests/data/r/inv_cubes_unbalanced.csv", stringsAsFactors = TRUE)
fit <- aov(mpa ~ mix, d)
got <- NULL
timing("p-values (ours with intervals, exact)",
  function() got <<- summary(glht(fit, mcp(mix = "Dunnett"))), 7)
timing("p-values and intervals", function() {
  g <- glht(fit, mcp(mix = "Dunnett"))
  summary(g)
  confint(g)
}, 5)
cat("multcomp:", sprintf("%.10f", got$test$pvalues), "\n")
