/**
 * reproduce.R of every release: fits the model again from runs.csv with metafor and writes
 * reproduced.csv in the columns of effects.csv.
 */
export const REPRODUCE_SCRIPT = `# Fits the model of this release again, with other software, from its runs.
#
#   Rscript reproduce.R        (in the folder of the release; needs the packages metafor and Matrix)
#
# Writes reproduced.csv in the columns of effects.csv and says how far the two are apart.
#
# The model, for each metric: log_value = setup + pilot + session + cell + run + known error, where
# a cell is a setup within a session. The four variances are estimated by REML; known are the square
# of own_standard_uncertainty per run and, common to all runs of a session, the mean square of their
# shared_standard_uncertainty. Components that the flights cannot tell apart (status notSeparable in
# fit.csv) are left out. After the fit, the causes in systematic.csv are sent through the estimator
# and added to the covariance: standard_error is without them, standard_error_with_systematic with them.

suppressPackageStartupMessages(library(metafor))
suppressPackageStartupMessages(library(Matrix))

text <- function(file) read.csv(file, colClasses = "character", na.strings = "", encoding = "UTF-8")
runs <- text("runs.csv")
effects <- text("effects.csv")
fit <- text("fit.csv")
powerplant_of <- with(text("setups.csv"), setNames(powerplant_id, setup_id))
systematic <- text("systematic.csv")
for (column in c("log_value", "own_standard_uncertainty", "shared_standard_uncertainty")) {
  runs[[column]] <- as.numeric(runs[[column]])
}
for (column in c("estimate", "standard_error", "standard_error_with_systematic")) {
  effects[[column]] <- as.numeric(effects[[column]])
}
systematic$effect <- as.numeric(systematic$effect)

# One column per key, 1 in the rows that have it. Most cells are empty, and cost nothing.
indicator <- function(key) {
  known <- unique(key)
  sparseMatrix(i = seq_along(key), j = match(key, known), x = 1, dimnames = list(NULL, known))
}

# The covariance that one cause adds: its draws are independent between the columns of "draws".
spread <- function(solved, effect, draws) as.matrix(tcrossprod(solved %*% (effect * draws)))

# Takes from each run the mean of its session, weighted as runs and cells of the session weigh.
less_session_mean <- function(d, effect, variance) {
  for (rows in split(seq_len(nrow(d)), d$session_key)) {
    cell <- d$cell[rows]
    within <- diag(d$known[rows] + variance[["run"]], length(rows)) + variance[["cell"]] * outer(cell, cell, "==")
    weight <- solve(within, rep(1, length(rows)))
    effect[rows] <- effect[rows] - sum(weight * effect[rows]) / sum(weight)
  }
  effect
}

systematic_covariance <- function(d, setups, solved, variance) {
  total <- matrix(0, ncol(setups), ncol(setups))
  mine <- systematic[systematic$run_key %in% d$run_key, ]
  for (part in split(mine, list(mine$cause, mine$reach), drop = TRUE)) {
    effect <- numeric(nrow(d))
    effect[match(part$run_key, d$run_key)] <- part$effect
    total <- total + switch(part$reach[1],
      everyone = spread(solved, effect, matrix(1, nrow(d), 1)),
      powerplant = spread(solved, effect, indicator(powerplant_of[d$setup_id])),
      setup = spread(solved, effect, setups),
      pilot = spread(solved, less_session_mean(d, effect, variance), indicator(d$pilot_key)))
  }
  total
}

reproduce <- function(metric) {
  d <- runs[!is.na(runs$metric) & runs$metric == metric, ]
  d$cell <- paste(d$session_key, d$setup_id)
  d$run <- d$run_key
  d$known <- d$own_standard_uncertainty^2
  shared <- ave(d$shared_standard_uncertainty^2, d$session_key)
  V <- Diagonal(x = d$known) + tcrossprod(indicator(d$session_key) * sqrt(shared))

  parts <- fit[fit$metric == metric & fit$part == "varianceComponent", ]
  present <- parts$component[parts$status != "notSeparable"]
  group <- c(pilot = "pilot_key", session = "session_key", cell = "cell", run = "run")[present]
  setups <- indicator(d$setup_id)
  fit_with <- function(...) rma.mv(d$log_value, V, mods = as.matrix(setups), intercept = FALSE, data = d, method = "REML",
    sparse = TRUE, random = lapply(group, function(name) as.formula(paste("~ 1 |", name))), control = list(...))
  # The first search is exact, but may give up beside a variance of zero; then the slower one goes on.
  model <- tryCatch(fit_with(optimizer = "nlminb", eval.max = 10000, iter.max = 10000),
    error = function(problem) fit_with(optimizer = "optim", optmethod = "BFGS", reltol = 1e-14, maxit = 10000))

  variance <- c(pilot = 0, session = 0, cell = 0, run = 0)
  variance[present] <- model$sigma2
  solved <- t(solve(model$M, setups) %*% vcov(model))
  with_systematic <- vcov(model) + systematic_covariance(d, setups, solved, variance)
  data.frame(metric = metric, setup_id = colnames(setups), estimate = as.numeric(coef(model)),
    standard_error = sqrt(diag(vcov(model))), standard_error_with_systematic = sqrt(diag(with_systematic)))
}

# Where the runs do not show their scatter, there is no standard error to reproduce.
fitted <- unique(effects$metric[!is.na(effects$standard_error)])
reproduced <- do.call(rbind, lapply(fitted, reproduce))
key <- function(table) paste(table$metric, table$setup_id)
known <- effects[effects$metric %in% fitted, ]
reproduced <- reproduced[match(key(known), key(reproduced)), names(effects)]
for (column in names(reproduced)[-(1:2)]) reproduced[[column]] <- sprintf("%.17g", reproduced[[column]])
write.csv(reproduced, "reproduced.csv", row.names = FALSE, quote = FALSE, eol = "\\r\\n")

apart <- abs(as.numeric(reproduced$estimate) - known$estimate) / known$standard_error
for (metric in fitted) {
  cat(sprintf("%s: %d setups, at most %.2g standard errors apart\\n", metric,
    sum(known$metric == metric), max(apart[known$metric == metric])))
}
`
