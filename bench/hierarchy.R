# hierarchy.R DATA SLOPE DRAWS SECONDS USED OWN - the model of hierarchy.c in JAGS,
# with the same data and priors, and effective sizes of both by coda.
# DRAWS are ours as doubles, SECONDS what they took and USED what they used of the
# processors (warm-up and diagnosis with it), OWN our own estimate of the least
# effective size.  Five runs of JAGS, whose warm-up is not counted; medians.
suppressMessages({
	library(rjags)
	library(coda)
})
given <- commandArgs(TRUE)
slope <- given[2] == "1"
seconds <- as.numeric(given[4:5])
d <- read.csv(given[1])
density_reference <- 780
mix <- as.integer(factor(d$mix))
batch <- as.integer(factor(d$batch))
open <- which(d$kind != "exact")
# dinterval: 0 below the first limit, 1 between, 2 above the second.  A reading
# with one open end gets a second limit that no log here comes near.
low <- log(d$lower[open])
high <- log(d$upper[open])
side <- ifelse(is.na(low), 0, 1)
limit <- cbind(ifelse(is.na(low), high, low), ifelse(is.na(low), 99,
	ifelse(is.na(high), 99, high)))
y <- ifelse(d$kind == "exact", log(d$lower), NA)
model <- sprintf("model {
	for (i in 1:n) { y[i] ~ dnorm(at[i], tau) }
	for (i in 1:n) { at[i] <- mu[mix[i]] + u[batch[i]] %s }
	for (i in 1:n_open) { side[i] ~ dinterval(y[open[i]], limit[i, 1:2]) }
	for (b in 1:n_batch) { u[b] ~ dnorm(0, tau_batch) }
	for (m in 1:n_mix) { mu[m] ~ dnorm(5.7, 1) }
	%s
	sd_specimen ~ dnorm(0, 1 / 0.25) T(0, )
	sd_batch ~ dnorm(0, 1 / 0.09) T(0, )
	tau <- pow(sd_specimen, -2)
	tau_batch <- pow(sd_batch, -2)
}", if (slope) "+ beta * x[i]" else "",
	if (slope) "beta ~ dnorm(2, 1 / 2.25)" else "")
data <- list(n = nrow(d), n_open = length(open), n_batch = max(batch),
	n_mix = max(mix), y = y, side = side, open = open, limit = limit,
	mix = mix, batch = batch)
if (slope) data$x <- log(d$density / density_reference)
start <- rep(NA_real_, nrow(d))
start[open] <- ifelse(is.na(low), high - 0.1, ifelse(is.na(high), low + 0.1,
	(low + high) / 2))
first <- function(i) list(y = start, sd_specimen = 0.2, sd_batch = 0.1,
	.RNG.name = "base::Mersenne-Twister", .RNG.seed = i)
shown <- c("mu", if (slope) "beta", "sd_specimen", "sd_batch")
peer <- function(run) {
	m <- jags.model(textConnection(model), data, lapply(1:4 + 10 * run, first),
		n.chains = 4, n.adapt = 1000, quiet = TRUE)
	update(m, 500, progress.bar = "none")
	from <- proc.time()
	draws <- coda.samples(m, shown, 5000, progress.bar = "none")
	took <- proc.time() - from
	list(seconds = c(took[["elapsed"]], took[["user.self"]] + took[["sys.self"]]),
		ess = effectiveSize(draws), mean = summary(draws)$statistics[, 1])
}
runs <- lapply(1:5, peer)
took <- apply(sapply(runs, `[[`, "seconds"), 1, median)
ess <- median(sapply(runs, function(r) min(r$ess)))
ours <- matrix(readBin(given[3], "double", 1e7),
	ncol = max(mix) + slope + 2, byrow = TRUE)
n <- nrow(ours) / 4
chains <- mcmc.list(lapply(0:3, function(i) mcmc(ours[i * n + 1:n, ])))
least <- min(effectiveSize(chains))
cat(sprintf("largest difference of a posterior mean: %.4f\n",
	max(abs(sort(colMeans(ours)) - sort(runs[[1]]$mean)))))
say <- function(who, n, seconds, ess)
	cat(sprintf("%s: %d draws in %.4f s (%.4f s of processor), least effective size %.0f: %.0f a second (%.0f a processor second)\n",
		who, n, seconds[1], seconds[2], ess, ess / seconds[1], ess / seconds[2]))
say("JAGS", 20000L, took, ess)
say("ours", nrow(ours), seconds, least)
cat(sprintf("our own estimate of our least effective size: %s\n", given[6]))
ratio <- (least / seconds) / (ess / took)
cat(sprintf("ratio: %.0f times by the clock, %.0f times a processor second\n",
	ratio[1], ratio[2]))
