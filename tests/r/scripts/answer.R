# How both referees answer: answer.csv, one number a row with all its digits.
rows <- list()
answer <- function(kind, a, value, b = "", se = NA, df = NA) {
  digits <- function(x) ifelse(is.na(x), "", sprintf("%.17g", x))
  rows[[length(rows) + 1]] <<- data.frame(
    kind = kind, a = a, b = b, value = digits(value), se = digits(se), df = digits(df)
  )
}
write_answer <- function(packages) {
  for (p in packages) {
    rows[[length(rows) + 1]] <<- data.frame(
      kind = "version", a = p, b = as.character(packageVersion(p)), value = "", se = "", df = ""
    )
  }
  rows[[length(rows) + 1]] <<- data.frame(
    kind = "version", a = "R", b = as.character(getRversion()), value = "", se = "", df = ""
  )
  write.csv(do.call(rbind, rows), "answer.csv", row.names = FALSE, quote = FALSE)
}
read_runs <- function() {
  runs <- read.csv("runs.csv", colClasses = c(setup = "character", session = "character", pilot = "character"))
  runs$setup <- factor(runs$setup)
  runs$cell <- factor(paste(runs$setup, runs$session))
  runs$run <- factor(seq_len(nrow(runs)))
  runs
}
