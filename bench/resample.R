# resample.R DATA: 10,000 resamples with the BCa interval by boot.
library(boot)
source("bench/timing.R")
x <- scan(commandArgs(TRUE)[1], quiet = TRUE)
for (word in c("mean", "median", "sd", "cv")) {
  of <- switch(word, mean = mean, median = median, sd = sd,
    cv = function(z) sd(z) / mean(z))
  ends <- NULL
  timing(word, function() {
    b <- boot(x, function(z, i) of(z[i]), 10000)
    ends <<- boot.ci(b, type = "bca")$bca[4:5]
  }, 5)
  cat(sprintf("boot, %s: BCa %.6g to %.6g\n", word, ends[1], ends[2]))
}
