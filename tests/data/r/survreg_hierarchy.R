# survreg_hierarchy.R - interval-censored lognormal fits by survreg, for the
# hierarchical model without batches.  Run in tests/data/r; writes
# survreg_rows.csv (invented: 600 beams of three mixes, read in steps of about a
# fifth, every fourth exactly) and survreg_fit.csv.
library(survival)
set.seed(7301)
n <- 600
mix <- rep(c("A", "B", "C"), length.out = n)
log_mean <- c(A = 5.41, B = 5.77, C = 6.13)
x <- round(runif(n, -1, 1), 3)
y <- exp(log_mean[mix] + 0.37 * x + rnorm(n, 0, 0.23))
step <- 181 * 1.21^(0:6)
k <- findInterval(y, step)
low <- c(NA, step)[k + 1]
high <- c(step, NA)[k + 1]
exact <- seq_len(n) %% 4 == 0
low[exact] <- high[exact] <- y[exact]
rows <- data.frame(mix, x, low = signif(low, 6), high = signif(high, 6))
write.csv(rows, "survreg_rows.csv", row.names = FALSE, quote = FALSE)
s <- with(rows, Surv(low, high, type = "interval2"))
put <- function(f, fit) {
	se <- sqrt(diag(f$var))
	data.frame(fit, name = c(names(coef(f)), "log_scale"),
		value = signif(c(coef(f), log(f$scale)), 12), se = signif(se, 12))
}
tight <- survreg.control(rel.tolerance = 1e-14, maxiter = 200)
out <- rbind(put(survreg(s ~ mix - 1, rows, dist = "lognormal", control = tight),
	"mixes"), put(survreg(s ~ mix + x - 1, rows, dist = "lognormal",
	control = tight), "slope"))
write.csv(out, "survreg_fit.csv", row.names = FALSE, quote = FALSE)
