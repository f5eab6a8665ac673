# 04_variance.R: variance components by REML, with intervals by profile of the
# RESTRICTED likelihood (lme4's own profile() and confint() refit by maximum
# likelihood first, so their intervals are others).  Two ways that share no code
# with ours: lme4 for estimates and log-likelihood, and below the restricted
# likelihood from full matrices, profiled by optimise() and uniroot().
# Run in this folder: Rscript 04_variance.R > variance.csv
# It also writes variance_rows.csv, the rows of each case as they went in.
suppressMessages(library(lme4))
rows <- NULL; data <- NULL
put <- function(case, what, value) rows <<- rbind(rows, data.frame(case, what,
  value = sprintf("%.15g", value)))

# Minus twice the restricted log-likelihood of variances (vb, vw), dense.
deviance2 <- function(vb, vw, y, X, Z) {
  V <- vb * tcrossprod(Z) + vw * diag(length(y))
  R <- chol(V)
  Xw <- backsolve(R, X, transpose = TRUE); yw <- backsolve(R, y, transpose = TRUE)
  A <- crossprod(Xw); b <- solve(A, crossprod(Xw, yw))
  2 * sum(log(diag(R))) + c(determinant(A)$modulus) + sum((yw - Xw %*% b)^2) +
    (length(y) - ncol(X)) * log(2 * pi)
}
profile_of <- function(which, v, y, X, Z, start) {
  f <- if (which == "between") function(l) deviance2(v, exp(l), y, X, Z) else
    function(l) deviance2(exp(l), v, y, X, Z)
  g <- seq(log(start) - 14, log(start) + 9, .5); d <- sapply(g, f); k <- which.min(d)
  o <- optimise(f, c(g[max(k - 1, 1)], g[min(k + 1, length(g))]), tol = 1e-12)$objective
  if (which == "within") min(o, deviance2(0, v, y, X, Z)) else o
}
ends <- function(case, y, group, batch, conf = .95) {
  data <<- rbind(data, data.frame(case, group, batch, value = sprintf("%.17g", y)))
  batch <- factor(paste(group, batch)); group <- factor(group)
  X <- if (nlevels(group) > 1) model.matrix(~ group) else matrix(1, length(y))
  Z <- model.matrix(~ 0 + batch)
  fit <- if (nlevels(group) > 1) lmer(y ~ group + (1 | batch)) else lmer(y ~ 1 + (1 | batch))
  vc <- as.data.frame(VarCorr(fit))$vcov
  # polish lme4's estimate (its optimiser stops at about 1e-6 relative)
  prof <- function(r) { f <- function(l) deviance2(r * exp(l), exp(l), y, X, Z)
    optimise(f, log(vc[2]) + c(-2, 2), tol = 1e-13)$objective }
  best <- deviance2(0, sum(lm.fit(X, y)$residuals^2) / (length(y) - ncol(X)), y, X, Z)
  vb <- 0; vw <- sum(lm.fit(X, y)$residuals^2) / (length(y) - ncol(X))
  if (vc[1] > 1e-8 * vc[2]) {
    for (turn in 1:3) {
      o <- optim(log(c(vc[1], vc[2])), function(l) deviance2(exp(l[1]), exp(l[2]), y, X, Z),
        method = "BFGS", control = list(reltol = 1e-16, maxit = 1000))
      vc <- exp(o$par) }
    if (o$value < best) { best <- o$value; vb <- vc[1]; vw <- vc[2] }
  }
  put(case, "lme4.between", as.data.frame(VarCorr(fit))$vcov[1])
  put(case, "lme4.within", as.data.frame(VarCorr(fit))$vcov[2])
  put(case, "log_likelihood", c(logLik(fit)))
  put(case, "between", vb); put(case, "within", vw)
  bar <- best + qchisq(conf, 1)
  gap <- function(which, start) function(l) profile_of(which, exp(l), y, X, Z, start) - bar
  root <- function(f, a, b) exp(uniroot(f, c(a, b), tol = 1e-11)$root)
  fw <- gap("within", max(vb, vw / 10)); lw <- log(vw)
  put(case, "within.low", root(fw, lw - 4, lw)); put(case, "within.high", root(fw, lw, lw + 6))
  fb <- gap("between", vw); at0 <- gap("between", vw)(-Inf)
  lb <- log(max(vb, vw / 1000))
  put(case, "between.low", if (at0 <= 0) 0 else root(fb, lb - 12, lb))
  put(case, "between.high", root(fb, lb, lb + 14))
}
read <- function(f) read.csv(f, stringsAsFactors = FALSE)
d <- read("dyestuff.csv"); ends("dyestuff.csv", d$Yield, "all", d$Batch)
d <- read("dyestuff2.csv"); ends("dyestuff2.csv", d$Yield, "all", d$Batch)
d <- read("inv_batches_balanced.csv"); ends("inv_batches_balanced.csv", d$density, "all", d$batch)
d <- read("inv_nested.csv"); ends("inv_nested.csv", log(d$mpa), d$mix, d$batch)
d <- read("inv_nested.csv"); ends("inv_nested_pooled", log(d$mpa), "all", d$batch)
d <- read.table("../nist_dataplot/GEAR.DAT", skip = 25); ends("gear", d$V1, "all", d$V2)
d <- read.table("../nist_dataplot/VANGEL34.DAT", skip = 25)
ends("vangel34", d$V1, d$V2, d$V4); ends("vangel34_pooled", d$V1, "all", d$V4)
write.csv(data, "variance_rows.csv", row.names = FALSE, quote = FALSE)
write.csv(rows, stdout(), row.names = FALSE, quote = FALSE)
