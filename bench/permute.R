# permute.R: the same by coin, whose shuffles are in C.
suppressMessages(library(coin))
source("bench/timing.R")
d <- read.csv("tests/data/r/inv_cubes_unbalanced.csv", stringsAsFactors = TRUE)
p <- NULL
timing("1,000,000 shuffles", function() p <<- pvalue(oneway_test(mpa ~ mix, d,
  distribution = approximate(nresample = 1e6))), 3)
cat(sprintf("coin: p = %.6f\n", p))
