# The referee where no uncertainty is known: lme4, with lmerTest's degrees of freedom.
# Usage: Rscript lme4.R COMPONENTS; reads runs.csv, writes answer.csv.
script <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
source(file.path(dirname(script), "answer.R"))
suppressPackageStartupMessages(library(lmerTest))
components <- setdiff(strsplit(commandArgs(TRUE)[1], ",")[[1]], "run")
runs <- read_runs()
means <- if (nlevels(runs$setup) > 1) "y ~ 0 + setup" else "y ~ 1"
model <- lmer(
  as.formula(paste(means, paste0("+ (1 | ", components, ")", collapse = " "))), runs, REML = TRUE,
  control = lmerControl(
    optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9, maxfun = 1e5), calc.derivs = FALSE
  )
)
answer("logLik", "", as.numeric(logLik(model)))
variances <- as.data.frame(VarCorr(model))
for (i in seq_len(nrow(variances))) {
  group <- variances$grp[i]
  answer("theta", if (group == "Residual") "run" else group, variances$vcov[i])
}
setups <- levels(runs$setup)
ask <- function(kind, l, a, b = "") {
  found <- contest1D(model, l)
  answer(kind, a, found[["Estimate"]], b, found[["Std. Error"]], found[["df"]])
}
unit <- function(i) as.numeric(seq_along(setups) == i)
for (i in seq_along(setups)) ask("mean", unit(i), setups[i])
for (i in seq_along(setups)[-1]) ask("difference", unit(i) - unit(1), setups[i], setups[1])
write_answer(c("lme4", "lmerTest"))
