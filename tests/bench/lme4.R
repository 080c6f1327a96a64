# Fits runs.csv by lme4 and writes seconds.csv, means.csv. Reading the table is not timed.
suppressPackageStartupMessages(library(lme4))
runs <- read.csv("runs.csv", colClasses = c("numeric", "factor", "factor", "factor"))
runs$cell <- interaction(runs$setup, runs$session, drop = TRUE, lex.order = TRUE)
started <- proc.time()
model <- lmer(
  y ~ 0 + setup + (1 | pilot) + (1 | session) + (1 | cell), runs, REML = TRUE,
  control = lmerControl(calc.derivs = FALSE)
)
seconds <- proc.time() - started
digits <- function(x) sprintf("%.17g", x)
write.csv(
  data.frame(
    elapsed = seconds[["elapsed"]], cpu = seconds[["user.self"]] + seconds[["sys.self"]],
    logLik = digits(as.numeric(logLik(model))), lme4 = as.character(packageVersion("lme4")),
    R = as.character(getRversion())
  ),
  "seconds.csv", row.names = FALSE, quote = FALSE
)
means <- fixef(model)
write.csv(
  data.frame(setup = sub("^setup", "", names(means)), mean = digits(means), se = digits(sqrt(diag(as.matrix(vcov(model)))))),
  "means.csv", row.names = FALSE, quote = FALSE
)
