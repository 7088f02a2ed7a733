# The body's equations a third time, solved by deSolve's lsoda, restarted wherever a drive changes.
#
#   Rscript course.R FOLDER TABLE            reads FOLDER/parameters.csv and windows.csv, writes TABLE
#   Rscript course.R FOLDER TABLE COMMITTED  and compares: exit code 1 if a value is 1e-6 apart
#
# Units are those of sim/body/units.md.

suppressPackageStartupMessages(library(deSolve))

drives <- c("liver death", "liver scar", "liver leak", "bile block", "canalicular block", "liver fat",
            "shunt", "steroid dose", "phenobarbital dose", "muscle death", "heme load",
            "nephron death", "nephron stun", "outflow block", "water loss", "food missing", "meal")
shares <- c("bile block", "canalicular block", "liver fat", "shunt", "outflow block", "food missing",
            "meal")
pools <- c("ALT", "AST", "liver ALP", "steroid ALP", "bone ALP", "GGT", "CK")
membrane <- c("liver ALP", "steroid ALP", "GGT")

# Drives that hold from an hour on: shares block one behind another, the rest add up.
driven <- function(windows, hour) {
  d <- setNames(rep(0, length(drives)), drives)
  now <- windows[windows$from <= hour & hour < windows$to, ]
  for (i in seq_len(nrow(now))) {
    w <- now$drive[i]
    d[w] <- if (w %in% shares) 1 - (1 - d[w]) * (1 - now$value[i]) else d[w] + now$value[i]
  }
  d
}

# Corners are rounded by a parabola over a tenth to either side.
round_off <- function(gap) max(0.1 - abs(gap), 0)^2 / 0.4
lesser <- function(a, b) min(a, b) - round_off(a - b)
above_zero <- function(x) max(x, 0) + round_off(x)

# An animal: its parameters, and what follows from them so that health is a point of rest.
animal <- function(p) {
  a <- list(p = p)
  of_pools <- function(what) sapply(pools, function(j) p[[paste0("pools.", j, ".", what)]])
  a$set_point <- of_pools("set point")
  a$out <- log(2) / of_pools("half-life")
  a$volume <- of_pools("volume")
  a$liver <- p[["liver.mass"]] * of_pools("liver content")                           # U/kg
  a$muscle <- p[["muscle.recovery"]] * p[["muscle.mass"]] * of_pools("muscle content")
  a$mito <- of_pools("mitochondrial share")
  a$yield <- of_pools("cytosol yield")
  a$mito_yield <- of_pools("mitochondrial yield")
  loss <- a$set_point * a$out * a$volume                                             # U/kg/h
  a$muscle_pace <- loss[["CK"]] / a$muscle[["CK"]]
  a$shedding <- loss - a$muscle * a$muscle_pace                                      # liver, bone
  a$cytosol <- log(2) / p[["liver.dying cytosol half-time"]]                         # 1/h
  a$mitochondria <- log(2) / p[["liver.dying mitochondria half-time"]]
  a$muscle_cytosol <- log(2) / p[["muscle.dying cytosol half-time"]]

  b <- function(name) p[[paste0("bilirubin.", name)]]
  a$heme_in <- b("production") / b("space")
  a$renal <- b("renal clearance") / b("space")
  con <- b("conjugated")
  excreted <- a$heme_in - a$renal * con^2 / (con + b("renal threshold")) -
    b("binding to albumin") * con
  a$excretion_most <- b("reserve of excretion") * excreted
  a$excretion_half <- con * (b("reserve of excretion") - 1)
  a$delta_out <- log(2) / b("delta half-life")

  acid <- function(name) p[[paste0("bile acids.", name)]]
  e <- acid("extraction")
  a$uptake_power <- -log(1 - e)
  # At rest: what leaves the blood by liver and kidney is what slips through from the portal vein.
  portal <- acid("fasting") * (acid("plasma flow") * e + acid("renal clearance")) / (1 - e)
  secreted <- portal / (1 - acid("loss per pass"))
  a$made <- secreted - e * portal - e * acid("plasma flow") * acid("fasting")
  a$gut <- secreted / acid("uptake from gut")
  a$store <- acid("pool") - a$gut - acid("fasting") * acid("space")
  a$emptying <- acid("stored share") * secreted / a$store

  k <- function(name) p[[paste0("kidney.", name)]]
  a$urea_share <- k("urea production") / (k("urea") * k("filtration"))
  a$rest_need <- (k("urine gravity") - k("urine gravity plain")) /
    (k("urine gravity most") - k("urine gravity plain"))

  share <- p[["protein.plasma share of albumin"]]
  a$broken <- log(2) / p[["protein.albumin half-life"]]
  a$back <- p[["protein.exchange of albumin"]] * share / (1 - share) - a$broken
  a$albumin_made <- a$broken * p[["protein.albumin"]] * p[["water.plasma"]] / share
  a
}

# The healthy animal at its age.
at_rest <- function(a) {
  p <- a$p
  month <- 730.5
  growth <- p[["bone.growth at one month"]] * exp(-(p[["age"]] - month) / p[["bone.growth lag"]])
  level <- a$set_point
  level["bone ALP"] <- level["bone ALP"] * (1 + growth)
  share <- p[["protein.plasma share of albumin"]]
  plasma <- p[["water.plasma"]]
  c(living = 1, scar = 0, dying = 0, dying_mito = 0, leak = 0, ducts = 0, necrosis = 0, adapted = 0,
    alp = 0, ggt = 0, fast = 0, middle = 0, slow = 0, pheno = 0,
    muscle = 1, muscle_dying = 0,
    fluid = (1 - p[["muscle.direct share"]]) * a$muscle_pace / p[["muscle.lymph rate"]],
    growth = growth, setNames(level, paste0("E.", pools)),
    bili = p[["bilirubin.unconjugated"]] + p[["bilirubin.conjugated"]],
    delta = p[["bilirubin.binding to albumin"]] * p[["bilirubin.conjugated"]] / a$delta_out,
    heme = 1, store = a$store, gut = a$gut, acids = p[["bile acids.fasting"]],
    water = p[["water.total"]], salt = p[["water.sodium"]] * p[["water.extracellular"]],
    plasma = plasma, nephrons = 1, stunned = 0, hyper = 1, outflow = 1,
    creatinine = p[["kidney.creatinine"]] * p[["water.total"]],
    urea = p[["kidney.urea"]] * p[["water.total"]], intake = 1, mass = 1, cortisol = 0,
    alb = p[["protein.albumin"]] * plasma, alb_out = p[["protein.albumin"]] * plasma * (1 - share) / share,
    glucose = p[["sugar.glucose"]], cholesterol = p[["sugar.cholesterol"]])
}

# What follows from a state at once.
now <- function(y, a, d) {
  p <- a$p
  x <- list()
  s <- y[["scar"]]
  x$ductal <- 1 - (1 - y[["ducts"]]) * (1 - p[["liver.cholestasis of scar"]] * s^2)
  x$lost <- 1 - (1 - x$ductal) * (1 - y[["necrosis"]]) * (1 - d[["liver fat"]])
  x$shunted <- 1 - (1 - d[["shunt"]]) * (1 - p[["liver.acquired shunt of scar"]] * s^3)
  x$reached <- 1 - p[["bile acids.portal share"]] * x$shunted
  x$work <- y[["living"]] * x$reached
  x$calm <- 1 - p[["liver.adaptation of leak"]] * y[["adapted"]]
  fill <- y[["plasma"]] / p[["water.plasma"]]
  x$gfr <- p[["kidney.filtration"]] * y[["nephrons"]] * (1 - y[["stunned"]]) * y[["hyper"]] *
    y[["outflow"]] * 2 * fill^4 / (1 + fill^4)
  dry <- (1 - fill) / p[["kidney.plasma fall for full need"]]
  x$need <- a$rest_need + (1 - a$rest_need) * dry / sqrt(1 + dry^2) -
    p[["steroid.fall of urine need"]] * y[["cortisol"]]
  saved <- p[["kidney.urea saved by need"]] * (x$need - a$rest_need)
  span <- if (saved > 0) 0.7 else 0.4
  x$urea_cleared <- a$urea_share * (1 - saved / sqrt(1 + (saved / span)^2))
  half <- p[["kidney.liver share at half urea"]]
  x$made <- x$work * (1 + half) / (x$work + half)
  x
}

change <- function(t, y, k) {
  a <- k$a; d <- k$d; p <- a$p
  x <- now(y, a, d)
  v <- y[["living"]]
  dose <- function(which, drug) d[[which]] / (d[[which]] + p[[paste0(drug, ".half-effect dose")]])
  cells <- x$lost - x$ductal
  killed <- (d[["liver death"]] + p[["liver.death in obstruction"]] * y[["ducts"]]) * v
  scarred <- (d[["liver scar"]] + p[["liver.death in obstruction"]] * y[["ducts"]]) * v
  r <- c(
    living = p[["liver.regrowth"]] * v * (1 - p[["liver.portal share of growth"]] * d[["shunt"]] - v -
                                            y[["scar"]]) - killed,
    scar = scarred, dying = killed - a$cytosol * y[["dying"]],
    dying_mito = killed - a$mitochondria * y[["dying_mito"]],
    leak = (d[["liver leak"]] + x$calm * (p[["liver.leak in obstruction"]] * y[["ducts"]] +
              p[["liver.leak in canalicular cholestasis"]] * cells) +
            p[["steroid.leak gain"]] * y[["fast"]]^2 + p[["phenobarbital.leak gain"]] * y[["pheno"]] -
            y[["leak"]]) / p[["liver.onset of leak"]],
    ducts = (d[["bile block"]] - y[["ducts"]]) / p[["liver.filling of ducts"]],
    necrosis = (max(d[["canalicular block"]],
                    1 - exp(-p[["liver.cholestasis after necrosis"]] * y[["dying_mito"]])) -
                y[["necrosis"]]) / p[["liver.lag of cholestasis after necrosis"]],
    adapted = (y[["ducts"]] - y[["adapted"]]) / p[["liver.adaptation to obstruction"]],
    alp = (x$lost - y[["alp"]]) / p[["liver.response of membrane enzymes"]],
    ggt = (x$ductal + p[["liver.GGT answer to canalicular cholestasis"]] * cells - y[["ggt"]]) /
      p[["liver.response of membrane enzymes"]],
    fast = (dose("steroid dose", "steroid") - y[["fast"]]) / p[["steroid.fast lag"]],
    middle = (y[["fast"]] - y[["middle"]]) / p[["steroid.middle lag"]],
    slow = (y[["middle"]] - y[["slow"]]) / p[["steroid.slow lag"]],
    pheno = (dose("phenobarbital dose", "phenobarbital") - y[["pheno"]]) / p[["phenobarbital.lag"]])

  # Muscle and enzymes
  m <- y[["muscle"]]
  shed <- a$muscle_cytosol * y[["muscle_dying"]] + a$muscle_pace * m
  direct <- p[["muscle.direct share"]]
  lymph <- p[["muscle.lymph rate"]]
  r <- c(r, muscle = p[["muscle.regrowth"]] * m * (1 - m) - d[["muscle death"]] * m,
         muscle_dying = d[["muscle death"]] * m - a$muscle_cytosol * y[["muscle_dying"]],
         fluid = (1 - direct) * shed - lymph * y[["fluid"]],
         growth = -y[["growth"]] / p[["bone.growth lag"]])
  from_dying <- a$liver * ((1 - a$mito) * a$yield * a$cytosol * y[["dying"]] +
                             a$mito * a$mito_yield * a$mitochondria * y[["dying_mito"]])
  release <- v * a$shedding * (1 + (1 - a$mito) * y[["leak"]]) + from_dying +
    a$muscle * (direct * shed + lymph * y[["fluid"]])
  wash <- 1 + p[["liver.ALP wash-off gain"]] * y[["alp"]]
  washed <- c(wash + p[["phenobarbital.ALP wash-off gain"]] * y[["pheno"]], wash,
              1 + p[["liver.GGT wash-off gain"]] * y[["ggt"]])
  content <- c(1 + p[["liver.ALP content gain"]] * y[["alp"]] * x$calm +
                 p[["steroid.liver ALP gain"]] * y[["fast"]],
               1 + p[["steroid.steroid ALP gain"]] * y[["slow"]],
               1 + p[["liver.GGT content gain"]] * y[["ggt"]] * x$calm +
                 p[["steroid.GGT gain"]] * y[["fast"]] * y[["middle"]])
  release[membrane] <- content * (v * a$shedding[membrane] * washed + from_dying[membrane])
  release["bone ALP"] <- a$shedding[["bone ALP"]] * (1 + y[["growth"]])
  level <- y[paste0("E.", pools)]
  r <- c(r, setNames(release / a$volume - a$out * level, paste0("E.", pools)))

  # Bilirubin and bile acids
  b <- function(name) p[[paste0("bilirubin.", name)]]
  free <- y[["heme"]] * (b("unconjugated") - b("back-flow") * b("conjugated")) / v
  con <- max(0, (y[["bili"]] - free) / (1 + b("back-flow")))
  bound <- b("binding to albumin") * con
  urine <- a$renal * (1 + p[["liver.adaptation of renal clearance"]] * y[["adapted"]]) * con^2 /
    (con + b("renal threshold"))
  acid <- function(name) p[[paste0("bile acids.", name)]]
  caught <- 1 - exp(-a$uptake_power * v / x$reached)
  portal <- (1 - acid("loss per pass")) * acid("uptake from gut") * y[["gut"]]
  cleared <- acid("plasma flow") * x$reached * caught * y[["acids"]]
  bile <- caught * (1 - x$shunted) * portal + cleared + a$made
  fed <- d[["meal"]] > 0
  kept <- if (fed) acid("stored share in a meal") else acid("stored share")
  emptied <- (a$emptying + if (fed) acid("emptying in a meal") else 0) * y[["store"]]
  flows <- 1 - x$lost
  r <- c(r, bili = a$heme_in * y[["heme"]] - urine - bound -
           a$excretion_most * v * flows * con / (a$excretion_half + con),
         delta = bound - a$delta_out * y[["delta"]],
         heme = (1 + d[["heme load"]] - y[["heme"]]) / b("heme lag"),
         store = kept * flows * bile - emptied,
         gut = (1 - kept) * flows * bile + emptied - acid("uptake from gut") * y[["gut"]],
         acids = (portal * (1 - caught * (1 - x$shunted)) + x$lost * bile - cleared -
                    acid("renal clearance") * y[["acids"]]) / acid("space"))

  # Water and kidney
  loss <- d[["water loss"]]
  w <- function(name) p[[paste0("water.", name)]]
  k <- function(name) p[[paste0("kidney.", name)]]
  refilling <- if (loss > 0) 0 else 1 / w("lag of intake")
  cell_salt <- w("sodium") * (w("total") - w("extracellular"))
  outside <- y[["salt"]] * y[["water"]] / (cell_salt + y[["salt"]])
  stun <- d[["nephron stun"]]
  short <- max(0, 1 - x$gfr / k("filtration"))
  r <- c(r, water = refilling * (w("total") - y[["water"]]) - loss,
         salt = refilling * (w("sodium") * w("extracellular") - y[["salt"]]) -
           w("isotonic share of loss") * w("sodium") * loss,
         plasma = (w("plasma") * sqrt(outside / w("extracellular")) - y[["plasma"]]) /
           w("lag of refill") - 0.5 * w("isotonic share of loss") * loss * y[["plasma"]] / outside,
         nephrons = -d[["nephron death"]] * y[["nephrons"]],
         stunned = if (stun > 0) stun * (1 - y[["stunned"]]) else
           -y[["stunned"]] / k("recovery from stun"),
         hyper = (1 + k("hyperfiltration") * (1 - y[["nephrons"]]) - y[["hyper"]]) /
           k("lag of hyperfiltration"),
         outflow = (1 - d[["outflow block"]] - y[["outflow"]]) / k("lag of outflow"),
         creatinine = k("filtration") * k("creatinine") * y[["mass"]] *
           (1 - k("uremic fall of production") * short^3) - x$gfr * y[["creatinine"]] / y[["water"]],
         urea = k("urea production") * y[["intake"]] * x$made -
           x$urea_cleared * x$gfr * y[["urea"]] / y[["water"]],
         intake = (1 - (1 - k("urea made in fasting")) * d[["food missing"]] - y[["intake"]]) /
           k("lag of intake"),
         mass = (1 - p[["steroid.muscle loss"]] * min(y[["cortisol"]], 1) - y[["mass"]]) /
           p[["steroid.lag of muscle loss"]],
         cortisol = (d[["steroid dose"]] - y[["cortisol"]]) / p[["steroid.lag in blood"]])

  # Albumin, glucose, cholesterol
  wanted <- 1 + p[["protein.demand gain"]] *
    (1 - y[["alb"]] / y[["plasma"]] / p[["protein.albumin"]])
  made <- a$albumin_made * lesser(wanted, p[["protein.reserve of synthesis"]] * x$work)
  over <- p[["protein.exchange of albumin"]]
  s <- function(name) p[[paste0("sugar.", name)]]
  resist <- 1 / (1 + p[["steroid.insulin resistance"]] * y[["cortisol"]])
  insulin <- min(above_zero(resist * (1 + s("insulin gain") * (y[["glucose"]] / s("glucose") - 1))),
                 s("insulin most"))
  demand <- 3 / (1 + 2 * insulin)
  by_kidney <- s("kidney share of output")
  output <- (1 - by_kidney) * lesser(demand, s("liver output most") * x$work) +
    by_kidney * lesser(demand, s("liver output most") / 2)
  c(r, alb = made + a$back * y[["alb_out"]] - (over + a$broken) * y[["alb"]],
    alb_out = over * y[["alb"]] - (a$back + a$broken) * y[["alb_out"]],
    glucose = s("hepatic output") / s("space") *
      (output - (s("uptake without insulin") + (1 - s("uptake without insulin")) * insulin) *
         y[["glucose"]] / s("glucose")) -
      x$gfr / s("space") * max(0, y[["glucose"]] - s("renal threshold")),
    cholesterol = (s("cholesterol") * x$made *
                     (1 + p[["steroid.cholesterol gain"]] * y[["cortisol"]]) *
                     (1 + s("cholesterol without insulin") * (1 - resist)) *
                     (1 + s("cholesterol in bile block") * x$ductal) - y[["cholesterol"]]) /
      s("lag of cholesterol")) -> r
  list(r[names(y)])
}

# What a laboratory would measure.
analytes <- function(y, a, d) {
  p <- a$p
  x <- now(y, a, d)
  k <- function(name) p[[paste0("kidney.", name)]]
  urea <- y[["urea"]] / y[["water"]]
  spilled <- x$gfr * max(0, y[["glucose"]] - p[["sugar.renal threshold"]])
  load <- max(1, 1 + k("urea share of solute") *
                   (x$gfr * x$urea_cleared * urea / k("urea production") - 1) + spilled / 0.6)
  each <- min(1, y[["nephrons"]] * (1 - y[["stunned"]]) / load)
  able <- 2 * each^2 / (1 + each^2) * (1 - y[["stunned"]])
  span <- if (x$need > 0) k("urine gravity most") - k("urine gravity plain") else 0.008
  globulin <- p[["protein.globulin"]] * p[["water.plasma"]] / y[["plasma"]]
  albumin <- y[["alb"]] / y[["plasma"]]
  c(ALT = y[["E.ALT"]], AST = y[["E.AST"]],
    ALP = y[["E.liver ALP"]] + y[["E.steroid ALP"]] + y[["E.bone ALP"]], GGT = y[["E.GGT"]],
    CK = y[["E.CK"]], bilirubin = y[["bili"]] + y[["delta"]], bile_acids = y[["acids"]],
    protein = albumin + globulin, albumin = albumin, globulin = globulin, glucose = y[["glucose"]],
    urea = urea, creatinine = y[["creatinine"]] / y[["water"]], cholesterol = y[["cholesterol"]],
    USG = k("urine gravity plain") + span * able * max(x$need, -1))
}

# One row a look; the drives of a look are those before it.
course <- function(p, windows, looks) {
  a <- animal(p)
  y <- at_rest(a)
  edges <- c(windows$from, windows$to)
  breaks <- sort(unique(c(0, edges[edges > 0 & edges < max(looks)], max(looks))))
  rows <- list(analytes(y, a, driven(windows, 0)))
  for (i in seq_len(length(breaks) - 1)) {
    d <- driven(windows, breaks[i])
    here <- looks[looks > breaks[i] & looks <= breaks[i + 1]]
    times <- unique(c(breaks[i], here, breaks[i + 1]))
    path <- lsoda(y, times, change, list(a = a, d = d), rtol = 1e-9, atol = 1e-11, maxsteps = 1e5)
    if (attr(path, "istate")[1] != 2 || nrow(path) != length(times)) stop("lsoda gave up")
    for (look in here) rows[[length(rows) + 1]] <- analytes(path[match(look, times), -1], a, d)
    y <- path[nrow(path), -1]
  }
  do.call(rbind, rows)
}

arguments <- commandArgs(trailingOnly = TRUE)
if (!length(arguments) %in% 2:3) stop("usage: course.R FOLDER TABLE [COMMITTED]")
read <- function(file) read.csv(file, stringsAsFactors = FALSE, check.names = FALSE)
parameters <- read(file.path(arguments[1], "parameters.csv"))
windows <- read(file.path(arguments[1], "windows.csv"))
looks <- seq(0, 336, 6)
table <- do.call(rbind, lapply(unique(parameters$case), function(case) {
  mine <- parameters[parameters$case == case, ]
  p <- setNames(as.list(mine$value), mine$name)
  rows <- course(p, windows[windows$case == case, ], looks)
  data.frame(case = case, hour = looks, signif(rows, 10))
}))
write.csv(table, arguments[2], row.names = FALSE, quote = FALSE)

if (length(arguments) == 3) {
  committed <- read(arguments[3])
  if (!identical(dim(table), dim(committed)) || !identical(names(table), names(committed)) ||
      !identical(table$case, committed$case) || any(table$hour != committed$hour))
    stop("the committed table has other rows or columns")
  ours <- as.matrix(table[-(1:2)])
  theirs <- as.matrix(committed[-(1:2)])
  apart <- max(abs(ours - theirs) / abs(theirs))
  cat(sprintf("%d values, at most %.1e from the committed table\n", length(ours), apart))
  if (is.na(apart) || apart > 1e-6) quit(status = 1)
}
