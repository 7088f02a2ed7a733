# The whole body's equations a third time, solved by deSolve's lsoda, restarted wherever a drive
# changes.
#
#   Rscript course.R FOLDER TABLE            reads parameters.csv and windows.csv there, writes it
#   Rscript course.R FOLDER TABLE COMMITTED  and compares: exit code 1 if a value is 1e-6 apart
#
# The systems are in organs.R, fluids.R, blood.R and solutes.R, one function each. Units are those
# of the parameters as the body holds them, see DEVELOPERS.md.

options(warnPartialMatchDollar = TRUE, warn = 2) # names are never completed by guess
suppressPackageStartupMessages(library(deSolve))

script <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE)[1])
here <- dirname(gsub("~+~", " ", script, fixed = TRUE)) # R writes a blank of its path so
for (file in c("organs.R", "fluids.R", "blood.R", "solutes.R")) source(file.path(here, file))

drives <- c("liver death", "liver scar", "liver leak", "bile block", "canalicular block",
            "liver fat", "shunt", "steroid dose", "own steroid", "phenobarbital dose",
            "muscle death", "heart death", "acinar death", "acinar leak", "gut protein loss",
            "kidney protein loss", "nephron death", "nephron stun", "outflow block", "water loss",
            "adrenal death", "thyroxine", "insulin lack", "inflammation", "stress", "fright",
            "parasites", "bleeding", "hemolysis", "marrow block", "platelet death", "iron lack",
            "food missing", "meal")
shares <- c("bile block", "canalicular block", "liver fat", "shunt", "outflow block",
            "insulin lack", "inflammation", "stress", "fright", "parasites", "marrow block",
            "iron lack", "food missing", "meal")
systems <- c("hormones", "liver", "muscle", "digestion", "water", "nephrons", "red_cells", "kidney",
             "enzymes", "bile", "portal", "protein", "sugar", "salts", "white_cells", "platelets")

# Drives that hold from an hour on: shares block one behind another, the rest add up.
driven <- function(windows, hour) {
  d <- setNames(as.list(rep(0, length(drives))), drives)
  now <- windows[windows$from <= hour & hour < windows$to, ]
  for (i in seq_len(nrow(now))) {
    w <- now$drive[i]
    if (!w %in% drives) stop("no such drive: ", w)
    d[[w]] <- if (w %in% shares) join(d[[w]], now$value[i]) else d[[w]] + now$value[i]
  }
  d
}

# Corners are rounded by a parabola over a width to either side.
round_off <- function(gap, width = 0.1) max(width - abs(gap), 0)^2 / (4 * width)
lesser <- function(a, b) min(a, b) - round_off(a - b)
positive <- function(x, width = 0.1) max(x, 0) + round_off(x, width)
# What lies above 0 sets in gently: by its square, or as a lack is felt by its cube.
onset <- function(x, width) if (x > 0) x^2 / (x + width) else 0
felt <- function(x, width) if (x > 0) x^3 / (x^2 + width^2) else 0
join <- function(a, b) 1 - (1 - a) * (1 - b)

# "red cells.life" becomes p$`red cells`$life, "pools.ALT.volume" p$pools$ALT$volume.
nested <- function(name, value) {
  p <- list()
  for (i in seq_along(name)) {
    at <- strsplit(name[i], ".", fixed = TRUE)[[1]]
    if (length(at) == 3) p[[at[1]]][[at[2]]][[at[3]]] <- value[i]
    else if (length(at) == 2) p[[at[1]]][[at[2]]] <- value[i]
    else p[[at]] <- value[i]
  }
  p
}

# An animal: its parameters, and what follows from them so that health is a point of rest.
animal <- function(p) c(list(p = p), sapply(systems, function(s) get(paste0("set_", s))(p),
                                            simplify = FALSE))

at_rest <- function(a) do.call(c, unname(lapply(systems, function(s) get(paste0("rest_", s))(a))))

# All systems at a moment, each seeing those before it.
now <- function(a, y, d) {
  x <- list()
  for (s in systems) x[[s]] <- get(s)(a, y, d, x)
  x
}

# The solver's vector and the list of states that the equations speak of.
places <- function(y) factor(rep(names(y), lengths(y)), levels = names(y))
as_states <- function(vector, places) split(as.vector(vector), places)

change <- function(t, vector, k) {
  x <- now(k$a, as_states(vector, k$places), k$d)
  all <- do.call(c, unname(lapply(x, function(one) one$change)))
  list(unlist(all[levels(k$places)], use.names = FALSE))
}

# What a laboratory would measure.
analytes <- function(a, y, d) {
  x <- now(a, y, d)
  dilution <- x$water$dilution
  filling <- x$red_cells$filling
  level <- as.list(x$enzymes$level)
  clot <- a$p$clotting
  fibrinogen <- y$fibrinogen / filling
  whole <- x$protein$albumin + x$protein$globulin
  all <- c(level[c("ALT", "AST", "GGT", "GLDH", "SDH", "CK", "LDH", of_pancreas, "cTnI")],
           count(a, y, x), balance(a, y, x),
           list(ALP = level$`liver ALP` + level$`steroid ALP` + level$`bone ALP`,
                bilirubin = (y$bilirubin + y$delta) / dilution, bile_acids = y$acids,
                ammonia = y$ammonia, protein = whole, albumin = x$protein$albumin,
                globulin = x$protein$globulin, glucose = y$glucose, urea = x$kidney$urea,
                creatinine = x$kidney$creatinine, SDMA = x$kidney$sdma,
                cholesterol = y$cholesterol / dilution,
                triglycerides = y$triglycerides / dilution + y$fat,
                T4 = a$p$hormones$thyroxine * y$thyroid, cortisol = x$hormones$level,
                CRP = y$crp / filling, SAA = y$saa / filling, fibrinogen = fibrinogen,
                PT = clot$PT * (1 + clot$`PT per lack of factor` * (1 / y$factor7 - 1)),
                aPTT = clot$aPTT * (1 + clot$`aPTT per lack of factor` * (1 / y$factors - 1)),
                USG = urine_gravity(a, y, x), UPC = urine_protein(a, y, d, x),
                TP = whole + fibrinogen))
  unlist(all[table_order])
}

table_order <- c(
  "ALT", "AST", "ALP", "GGT", "GLDH", "SDH", "CK", "LDH", "lipase", "amylase", "TLI", "cTnI",
  "bilirubin", "bile_acids", "ammonia", "protein", "albumin", "globulin", "glucose", "urea",
  "creatinine", "SDMA", "cholesterol", "triglycerides", "Na", "K", "Cl", "tCO2", "anion_gap", "Ca",
  "P", "Mg", "T4", "cortisol", "CRP", "SAA", "PT", "aPTT", "fibrinogen", "USG", "UPC", "RBC", "Hb",
  "Hct", "MCV", "MCH", "MCHC", "reticulocytes", "WBC", "neutrophils", "bands", "lymphocytes",
  "monocytes", "eosinophils", "platelets", "toxic", "PCV", "TP")

# One row a look; the drives of a look are those before it.
course <- function(p, windows, looks) {
  a <- animal(p)
  y <- at_rest(a)
  k <- list(a = a, places = places(y))
  y <- unlist(y)
  edges <- c(windows$from, windows$to)
  breaks <- sort(unique(c(0, edges[edges > 0 & edges < max(looks)], max(looks))))
  read_out <- function(y) analytes(a, as_states(y, k$places), k$d)
  k$d <- driven(windows, 0)
  rows <- list(read_out(y))
  for (i in seq_len(length(breaks) - 1)) {
    k$d <- driven(windows, breaks[i])
    within <- looks[looks > breaks[i] & looks <= breaks[i + 1]]
    times <- unique(c(breaks[i], within, breaks[i + 1]))
    path <- lsoda(y, times, change, k, rtol = 1e-9, atol = 1e-11, maxsteps = 1e5)
    if (attr(path, "istate")[1] != 2 || nrow(path) != length(times)) stop("lsoda gave up")
    for (look in within) rows[[length(rows) + 1]] <- read_out(path[match(look, times), -1])
    y <- path[nrow(path), -1]
  }
  do.call(rbind, rows)
}

arguments <- commandArgs(trailingOnly = TRUE)
if (!length(arguments) %in% 2:3) stop("usage: course.R FOLDER TABLE [COMMITTED]")
read <- function(file) read.csv(file, stringsAsFactors = FALSE, check.names = FALSE)
parameters <- read(file.path(arguments[1], "parameters.csv"))
parameters <- parameters[!startsWith(parameters$name, "variation"), ]
windows <- read(file.path(arguments[1], "windows.csv"))
looks <- seq(0, 336, 12)
table <- do.call(rbind, lapply(unique(parameters$case), function(case) {
  mine <- parameters[parameters$case == case, ]
  rows <- course(nested(mine$name, mine$value), windows[windows$case == case, ], looks)
  data.frame(case = case, hour = looks, signif(rows, 8))
}))
write.csv(table, arguments[2], row.names = FALSE, quote = FALSE)

if (length(arguments) == 3) {
  committed <- read(arguments[3])
  if (!identical(dim(table), dim(committed)) || !identical(names(table), names(committed)) ||
      !identical(table$case, committed$case) || any(table$hour != committed$hour))
    stop("the committed table has other rows or columns")
  ours <- as.matrix(table[-(1:2)])
  theirs <- as.matrix(committed[-(1:2)])
  apart <- max(abs(ours - theirs) / pmax(abs(theirs), 1e-3)) # only toxic change comes near 0
  cat(sprintf("%d values, at most %.1e from the committed table\n", length(ours), apart))
  if (is.na(apart) || apart > 1e-6) quit(status = 1)
}
