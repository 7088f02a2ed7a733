# Water, nephrons, what the kidney filters, and the salts.

set_water <- function(p) {
  w <- p$water
  list(cell_salt = w$sodium * (w$total - w$extracellular), salt = w$sodium * w$extracellular,
       plasma = p$`red cells`$`blood volume` * (1 - p$`red cells`$hematocrit))
}

rest_water <- function(a) list(water = a$p$water$total, salt = a$water$salt)

water <- function(a, y, d, x) {
  w <- a$p$water
  unheld <- 1 - x$hormones$held
  salted <- y$salt / a$water$salt
  # A loss dries up where a fifth to a tenth of the salt outside the cells is left.
  loss <- d$`water loss` * max(0, min(1, 10 * salted - 1))
  bled <- d$bleeding * a$water$plasma * salted
  back <- if (d$`water loss` > 0) 0 else 1 / w$`lag of intake`
  outside <- y$salt * y$water / (a$water$cell_salt + y$salt)
  list(dilution = sqrt(outside / w$extracellular),
       change = list(
         water = back * (w$total - w$`water held by aldosterone` * unheld - y$water) - loss - bled,
         salt = back * (a$water$salt * (1 - w$`salt held by aldosterone` * unheld) - y$salt) -
           w$sodium * (w$`isotonic share of loss` * loss + bled)))
}

gut <- 0.005 # share of the healthy clearance that no kidney does

set_nephrons <- function(p) list()

rest_nephrons <- function(a) list(nephrons = 1, stunned = 0, hyper = 1, outflow = 1)

nephrons <- function(a, y, d, x) {
  k <- a$p$kidney
  stun <- d$`nephron stun`
  list(able = y$nephrons * (1 - y$stunned),
       change = list(
         nephrons = -d$`nephron death` * y$nephrons,
         stunned = if (stun > 0) stun * (1 - y$stunned) else -y$stunned / k$`recovery from stun`,
         hyper = (1 + k$hyperfiltration * (1 - y$nephrons) - y$hyper) / k$`lag of hyperfiltration`,
         outflow = (1 - d$`outflow block` - y$outflow) / k$`lag of outflow`))
}

set_kidney <- function(p) {
  k <- p$kidney
  list(urea_share = k$`urea production` / (k$urea * k$filtration),
       need = (k$`urine gravity` - k$`urine gravity plain`) /
         (k$`urine gravity most` - k$`urine gravity plain`))
}

rest_kidney <- function(a) {
  k <- a$p$kidney
  total <- a$p$water$total
  list(creatinine = k$creatinine * total, urea = k$urea * total,
       sdma = (1 - k$`SDMA without filtration`) * k$SDMA * total, intake = 1, mass = 1)
}

kidney <- function(a, y, d, x) {
  k <- a$p$kidney
  steroid <- a$p$steroid
  fill <- x$red_cells$filling
  perfusion <- 2 * fill^4 / (1 + fill^4)
  filtration <- k$filtration *
    (gut + (1 - gut) * x$nephrons$able * y$hyper * perfusion * y$outflow * y$effect^(1 / 4))
  dry <- (1 - fill) / k$`plasma fall for full need`
  need <- a$kidney$need + (1 - a$kidney$need) * dry / sqrt(1 + dry^2) -
    steroid$`fall of urine need` * y$excess
  saved <- k$`urea saved by need` * (need - a$kidney$need)
  span <- if (saved > 0) 0.7 else 0.4
  urea_cleared <- a$kidney$urea_share * (1 - saved / sqrt(1 + (saved / span)^2))
  short <- max(0, 1 - filtration / k$filtration)
  level <- function(amount) amount / y$water
  made <- k$filtration * k$creatinine * y$mass * (1 - k$`uremic fall of production` * short^3)
  fed <- 1 - (1 - k$`urea made in fasting`) * d$`food missing`
  list(filtration = filtration, g = filtration / k$filtration, perfusion = perfusion, need = need,
       urea_cleared = urea_cleared, creatinine_made = made, creatinine = level(y$creatinine), urea = level(y$urea),
       sdma = k$`SDMA without filtration` * k$SDMA + level(y$sdma),
       spilled = filtration *
         positive(y$glucose - a$p$sugar$`renal threshold`, k$`half splay of glucose`),
       change = list(
         creatinine = made - filtration * level(y$creatinine),
         urea = k$`urea production` * y$intake * x$liver$made * y$effect^(1 / 8) -
           urea_cleared * filtration * level(y$urea),
         sdma = (1 - k$`SDMA without filtration`) * k$SDMA * k$filtration -
           filtration * level(y$sdma),
         intake = (fed - y$intake) / k$`lag of intake`,
         mass = (1 - 2 * steroid$`muscle loss` * x$hormones$slow - y$mass) /
           steroid$`lag of muscle loss`))
}

# Specific gravity: concentration by each nephron under the solute it must excrete (0.6 mmol/kg/h in
# health; the most dilute urine lies 0.008 below plain filtrate).
urine_gravity <- function(a, y, x) {
  k <- a$p$kidney
  r <- x$kidney
  urea <- r$filtration * r$urea_cleared * r$urea / k$`urea production`
  load <- max(1, 1 + k$`urea share of solute` * (urea - 1) + r$spilled / 0.6)
  each <- min(1, x$nephrons$able / load)
  able <- 2 * each^2 / (1 + each^2) * (1 - y$stunned) *
    (1 - k$`concentration held by aldosterone` * (1 - x$hormones$held))
  span <- if (r$need > 0) k$`urine gravity most` - k$`urine gravity plain` else 0.008
  k$`urine gravity plain` + span * able * max(r$need, -1)
}

# Protein over the creatinine that is made, mg for mg: what a healthy kidney lets through, and what
# is lost.
urine_protein <- function(a, y, d, x) {
  k <- a$p$kidney
  per_mg <- 0.11312 # mg/umol of creatinine
  healthy <- k$`urine protein` * k$filtration * k$creatinine * per_mg
  lost <- 1000 * d$`kidney protein loss` * x$protein$albumin / a$p$protein$albumin
  (healthy * (1 + k$`urine protein of cortisol` * x$hormones$slow) + lost) /
    (x$kidney$creatinine_made * per_mg)
}

set_salts <- function(p) list()

rest_salts <- function(a) {
  s <- a$p$salts
  list(potassium = s$`potassium space` * s$potassium, phosphate = s$`phosphate space` * s$phosphate,
       excreted = s$`phosphate excreted`)
}

salts <- function(a, y, d, x) {
  s <- a$p$salts
  food <- 1 - d$`food missing`
  wet <- y$water / a$p$water$total # spaces follow body water
  potassium <- y$potassium / (s$`potassium space` * wet)
  phosphate <- y$phosphate / (s$`phosphate space` * wet)
  g <- x$kidney$g
  half <- s$`filtration at half potassium`
  floor <- s$`potassium excreted without aldosterone`
  excretion <- g * (1 + half) / (g + half) * sqrt(gut + (1 - gut) * y$outflow) *
    (floor + (1 - floor) * x$hormones$held)
  over <- (phosphate / s$phosphate /
             (1 + s$`phosphate of thyroxine` * (y$effect - 1) +
                s$`phosphate held without aldosterone` * (1 - x$hormones$held)))^6
  wanted <- s$`phosphate excreted most` * over /
    (over + s$`phosphate excreted most` / s$`phosphate excreted` - 1)
  list(potassium = potassium, phosphate = phosphate,
       change = list(
         potassium = s$`potassium intake` *
           (0.75 + 0.25 * food - (potassium / s$potassium)^3 * excretion),
         phosphate = a$p$kidney$filtration * s$phosphate * s$`phosphate excreted` *
           (0.8 + 0.2 * food) - x$kidney$filtration * y$excreted * phosphate,
         excreted = (wanted - y$excreted) / s$`lag of phosphate excretion`))
}

# The salts that follow at once: acids take from total CO2, charge decides on chloride.
balance <- function(a, y, x) {
  s <- a$p$salts
  w <- a$p$water
  unheld <- 1 - x$hormones$held
  uremia <- x$kidney$creatinine / a$p$kidney$creatinine - 1
  uremic <- s$`uremic acid` * onset(uremia, 0.2) # bends towards 25 mmol/L
  acids <- uremic / (1 + uremic / 25) + s$lactate * onset(1 - x$kidney$perfusion, 0.1) +
    s$ketones * onset(0.15 - x$sugar$sensitivity, 0.05) / 0.15
  sodium <- (a$water$cell_salt + y$salt) / y$water -
    s$`sodium of glucose` * (y$glucose - a$p$sugar$glucose)
  potassium <- x$salts$potassium
  tco2 <- 4 + positive(s$`total CO2` - acids - s$`total CO2 held by aldosterone` * unheld - 4, 2)
  albumin <- x$protein$albumin
  gap <- w$sodium + s$potassium - s$chloride - s$`total CO2` + acids +
    0.25 * (albumin - a$p$protein$albumin)
  calcium <- s$calcium * (1 - s$`calcium on albumin` * (1 - albumin / a$p$protein$albumin)) /
    (1 + s$`calcium of phosphate` / s$calcium * onset(x$salts$phosphate - s$phosphate, 0.3)) +
    s$`calcium of aldosterone` * unheld
  list(Na = sodium, K = potassium, Cl = sodium + potassium - tco2 - gap, tCO2 = tco2,
       anion_gap = gap, Ca = calcium, P = x$salts$phosphate,
       Mg = s$magnesium * (1 + s$`magnesium of creatinine` * uremia))
}
