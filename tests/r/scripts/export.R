# Writes one public data set of an R package as runs.csv: what is compared, in which group, with which
# known standard uncertainty. Usage: Rscript export.R NAME
name <- commandArgs(TRUE)[1]
runs <- switch(name,
  # J. C. Pinheiro, D. M. Bates: thickness of oxide layers, wafers in lots, lots from two sources.
  oxide = with(nlme::Oxide, data.frame(
    y = Thickness, u = 0, setup = paste0("source", Source),
    session = paste0("lot", Lot, "wafer", Wafer), pilot = paste0("lot", Lot)
  )),
  # F. E. Cook, cited in lme4: angle at which cakes broke, 3 recipes x 6 temperatures, 15 replicates.
  cake = with(lme4::cake, data.frame(
    y = angle, u = 0, setup = paste0(recipe, temperature),
    session = paste0("replicate", replicate, recipe), pilot = paste0("replicate", replicate)
  )),
  # M. Assink, C. J. M. Wibbelink 2016: several effects a study, by type of delinquency, known variances.
  assink2016 = with(metadat::dat.assink2016, data.frame(
    y = yi, u = sqrt(vi), setup = deltype, session = paste0("study", study), pilot = "all"
  ))
)
stopifnot(!is.null(runs))
runs$shared <- 0
for (column in c("y", "u", "shared")) runs[[column]] <- sprintf("%.17g", runs[[column]])
write.csv(runs, "runs.csv", row.names = FALSE, quote = FALSE)
