# hierarchy.R DATA SLOPE DRAWS SECONDS OWN - the model of hierarchy.c in JAGS,
# with the same data and priors, and effective sizes of both by coda.
# DRAWS are ours as doubles, SECONDS what they took (warm-up and diagnosis with
# it), OWN our own estimate of the least effective size.  Three runs of JAGS.
suppressMessages({
	library(rjags)
	library(coda)
})
given <- commandArgs(TRUE)
slope <- given[2] == "1"
seconds <- as.numeric(given[4])
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
	from <- Sys.time()
	draws <- coda.samples(m, shown, 5000, progress.bar = "none")
	list(seconds = as.numeric(difftime(Sys.time(), from, units = "secs")),
		ess = effectiveSize(draws), mean = summary(draws)$statistics[, 1])
}
runs <- lapply(1:3, peer)
took <- median(sapply(runs, `[[`, "seconds"))
ess <- sort(sapply(runs, function(r) min(r$ess)))[2]
ours <- matrix(readBin(given[3], "double", 1e7),
	ncol = max(mix) + slope + 2, byrow = TRUE)
n <- nrow(ours) / 4
chains <- mcmc.list(lapply(0:3, function(i) mcmc(ours[i * n + 1:n, ])))
least <- min(effectiveSize(chains))
cat(sprintf("largest difference of a posterior mean: %.4f\n",
	max(abs(sort(colMeans(ours)) - sort(runs[[1]]$mean)))))
cat(sprintf("JAGS: %d draws in %.3f s without its warm-up, least effective size %.0f: %.0f a second\n",
	4L * 5000L, took, ess, ess / took))
cat(sprintf("ours: %d draws in %.4f s with its warm-up, least effective size %.0f (own estimate %s): %.0f a second\n",
	nrow(ours), seconds, least, given[5], least / seconds))
cat(sprintf("ratio: %.0f times\n", least / seconds / (ess / took)))
