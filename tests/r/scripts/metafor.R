# The referee where uncertainties are known: metafor's rma.mv with nested random effects. What a session
# shares enters V as a variance common to its runs. Usage: Rscript metafor.R COMPONENTS; reads runs.csv
# (shared: standard uncertainty of the session), writes answer.csv.
script <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
source(file.path(dirname(script), "answer.R"))
suppressPackageStartupMessages(library(metafor))
components <- strsplit(commandArgs(TRUE)[1], ",")[[1]]
runs <- read_runs()
same <- outer(runs$session, runs$session, "==")
V <- diag(runs$u^2) + same * outer(runs$shared, runs$shared)
random <- lapply(components, function(component) as.formula(paste("~ 1 |", component)))
fit <- rma.mv(
  y, V, mods = ~ 0 + setup, random = random, data = runs, method = "REML", sparse = TRUE,
  control = list(iter.max = 1000, eval.max = 2000)
)
# metafor adds 1/2 log|X'X| to the restricted likelihood; lme4 and this service do not.
correction <- as.numeric(determinant(crossprod(fit$X))$modulus) / 2
answer("logLik", "", as.numeric(logLik(fit)) - correction)
for (i in seq_along(components)) answer("theta", components[i], fit$sigma2[i])
setups <- sub("^setup", "", rownames(fit$beta))
b <- as.numeric(fit$beta)
for (i in seq_along(setups)) answer("mean", setups[i], b[i], se = fit$se[i])
for (i in seq_along(setups)[-1]) {
  variance <- fit$vb[i, i] + fit$vb[1, 1] - 2 * fit$vb[1, i]
  answer("difference", setups[i], b[i] - b[1], setups[1], sqrt(variance))
}
write_answer(c("metafor", "metadat"))
