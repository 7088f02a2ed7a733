# R's own copies of two data sets of pharmacokinetics, and what its nls makes of them.
#
#   Rscript fits.R indometh|theoph         prints the data set as CSV
#   Rscript fits.R indometh|theoph nls     prints estimates and standard errors: one row per subject and parameter

args <- commandArgs(TRUE)
model <- list(indometh = conc ~ SSbiexp(time, A1, lrc1, A2, lrc2),
              theoph = conc ~ SSfol(Dose, Time, lKe, lKa, lCl))[[args[1]]]
data <- as.data.frame(list(indometh = datasets::Indometh, theoph = datasets::Theoph)[[args[1]]])

if (length(args) == 1) {
  write.csv(data, quote = FALSE, row.names = FALSE)
} else {
  cat("subject,parameter,estimate,error\n")
  for (subject in unique(as.character(data$Subject))) {
    fit <- nls(model, data[data$Subject == subject, ])
    table <- summary(fit)$coefficients
    cat(sprintf("%s,%s,%.12g,%.12g\n", subject, rownames(table), table[, 1], table[, 2]), sep = "")
  }
}
