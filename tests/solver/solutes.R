# What organs leak, make and clear: enzymes, bilirubin, bile acids, ammonia, proteins, sugar, fat.

pool_names <- c("ALT", "AST", "liver ALP", "steroid ALP", "bone ALP", "GGT", "GLDH", "SDH", "CK",
                "LDH", "lipase", "amylase", "TLI", "cTnI")
in_liver <- c("ALT", "AST", "liver ALP", "steroid ALP", "GGT", "GLDH", "SDH", "LDH")
of_pancreas <- c("lipase", "amylase", "TLI")

# Inflows in U/kg/h.
set_enzymes <- function(p) {
  of_pools <- function(what) sapply(p$pools[pool_names], function(one) {
    if (is.null(one[[what]])) 0 else one[[what]]
  })
  k <- list(set_point = of_pools("set point"), out = log(2) / of_pools("half-life"),
            volume = of_pools("volume"), mito = of_pools("mitochondrial share"),
            yield = of_pools("cytosol yield"), mito_yield = of_pools("mitochondrial yield"),
            liver = p$liver$mass * of_pools("liver content"),
            muscle = p$muscle$recovery * p$muscle$mass * of_pools("muscle content"),
            heart = p$heart$recovery * p$heart$mass * of_pools("heart content"),
            red = of_pools("red cell content"), renal = of_pools("renal share"),
            gain = of_pools("gain of acinar leak"))
  plasma <- p$`red cells`$`blood volume` * (1 - p$`red cells`$hematocrit)
  k$in_plasma <- pmin(1, plasma / k$volume)
  whole <- k$set_point * k$out * k$volume
  k$acini <- of_pools("pancreatic share") * whole
  k$other <- of_pools("share from elsewhere") * whole
  k$other[of_pancreas] <- (whole - k$acini)[of_pancreas]
  pace <- set_muscle(p)
  left <- whole - k$muscle * pace$pace - k$heart * pace$heart_pace - k$other
  k$living <- 0 * whole
  k$living[in_liver] <- left[in_liver]
  k$bone <- whole[["bone ALP"]]
  k
}

rest_enzymes <- function(a) {
  growth <- a$p$bone$`growth at one month` * exp((730.5 - max(a$p$age, 0)) / a$p$bone$`growth lag`)
  level <- a$enzymes$set_point
  level["bone ALP"] <- level["bone ALP"] * (1 + growth)
  list(growth = growth, enzyme = unname(level))
}

enzymes <- function(a, y, d, x) {
  k <- a$enzymes
  l <- a$p$liver
  steroid <- a$p$steroid
  v <- y$living
  dying <- k$liver * (1 - k$mito) * k$yield * x$liver$cytosol
  inflow <- k$living * v * (1 + (1 - k$mito) * y$leak) + dying +
    k$liver * k$mito * k$mito_yield * x$liver$mitochondria +
    k$muscle * x$muscle$flow + k$heart * x$muscle$heart_flow + k$red * x$red_cells$lysed +
    k$acini * y$acini * (1 + k$gain * y$acinar_leak) + k$other
  # Bound to membranes: cells make more (content), bile acids wash more of it off.
  membrane <- c("liver ALP", "steroid ALP", "GGT")
  wash <- 1 + l$`ALP wash-off gain` * y$alp
  washed <- c(wash + a$p$phenobarbital$`ALP wash-off gain` * y$pheno, wash,
              1 + l$`GGT wash-off gain` * y$ggt)
  content <- c(1 + l$`ALP content gain` * y$alp * x$liver$calm +
                 steroid$`liver ALP gain` * y$steroid_fast,
               1 + steroid$`steroid ALP gain` * y$steroid_slow,
               1 + l$`GGT content gain` * y$ggt * x$liver$calm +
                 steroid$`GGT gain` * y$steroid_fast * y$steroid_middle)
  inflow[membrane] <- content * (k$living[membrane] * v * washed + dying[membrane])
  inflow["bone ALP"] <- k$bone * (1 + y$growth) *
    (1 + a$p$bone$`turnover of thyroxine` * onset(y$effect - 1, 0.1))
  cleared <- 1 - k$renal + k$renal * x$kidney$g
  list(level = setNames(y$enzyme / x$red_cells$filling, pool_names),
       change = list(growth = -y$growth / a$p$bone$`growth lag`,
                     enzyme = unname(inflow / k$volume) -
                       unname(k$out * cleared / x$red_cells$filling + d$bleeding * k$in_plasma) *
                       y$enzyme))
}

set_bile <- function(p) {
  b <- p$bilirubin
  con <- b$conjugated
  made <- b$production / b$space
  renal <- b$`renal clearance` / b$space
  excreted <- made - renal * con^2 / (con + b$`renal threshold`) - b$`binding to albumin` * con
  list(made = made, renal = renal, most = b$`reserve of excretion` * excreted,
       half = con * (b$`reserve of excretion` - 1), delta = log(2) / b$`delta half-life`)
}

rest_bile <- function(a) {
  b <- a$p$bilirubin
  list(bilirubin = b$unconjugated + b$conjugated,
       delta = b$`binding to albumin` * b$conjugated / a$bile$delta, heme = 1)
}

bile <- function(a, y, d, x) {
  b <- a$p$bilirubin
  k <- a$bile
  # Exchange with the liver is fast: what is not needed to take up what heme brings is conjugated.
  free <- y$heme * (b$unconjugated - b$`back-flow` * b$conjugated) / y$living
  con <- positive((y$bilirubin - free) / (1 + b$`back-flow`), 0.5 * b$conjugated)
  bound <- b$`binding to albumin` * con
  urine <- k$renal * (1 + a$p$liver$`adaptation of renal clearance` * y$adapted) * con^2 /
    (con + b$`renal threshold`)
  pumped <- k$most * y$living * (1 - x$liver$lost) * con / (k$half + con)
  list(change = list(bilirubin = k$made * y$heme - pumped - urine - bound,
                     delta = bound - k$delta * y$delta,
                     heme = (x$red_cells$heme - y$heme) / b$`heme lag`))
}

# Flows of bile acids and ammonia that hold the healthy levels.
set_portal <- function(p) {
  b <- p$`bile acids`
  e <- b$extraction
  portal <- b$fasting * (b$`plasma flow` * e + b$`renal clearance`) / (1 - e)
  secreted <- portal / (1 - b$`loss per pass`)
  gut <- secreted / b$`uptake from gut`
  store <- b$pool - gut - b$fasting * b$space
  m <- p$ammonia
  list(reach = -log(1 - e), made = secreted - e * portal - e * b$`plasma flow` * b$fasting,
       gut = gut, store = store, emptying = b$`stored share` * secreted / store,
       ammonia_reach = -log(1 - m$extraction),
       ammonia_made = m$level * (b$`plasma flow` * m$extraction + m$`cleared elsewhere`) /
         (1 - m$extraction))
}

rest_portal <- function(a) list(store = a$portal$store, bile_gut = a$portal$gut,
                                acids = a$p$`bile acids`$fasting, ammonia = a$p$ammonia$level)

portal <- function(a, y, d, x) {
  b <- a$p$`bile acids`
  m <- a$p$ammonia
  k <- a$portal
  reached <- x$liver$reached
  straight <- 1 - x$liver$shunted
  caught <- 1 - exp(-k$reach * y$living / reached)
  brought <- (1 - b$`loss per pass`) * b$`uptake from gut` * y$bile_gut
  cleared <- b$`plasma flow` * reached * caught * y$acids
  made <- caught * straight * brought + cleared + k$made
  flowing <- (1 - x$liver$lost) * made
  fed <- d$meal > 0
  kept <- if (fed) b$`stored share in a meal` else b$`stored share`
  emptied <- (k$emptying + if (fed) b$`emptying in a meal` else 0) * y$store
  taken <- 1 - exp(-k$ammonia_reach * y$living / reached)
  list(change = list(
    store = kept * flowing - emptied,
    bile_gut = (1 - kept) * flowing + emptied - b$`uptake from gut` * y$bile_gut,
    acids = (brought * (1 - caught * straight) + x$liver$lost * made - cleared -
               b$`renal clearance` * y$acids) / b$space,
    ammonia = (k$ammonia_made * (1 + m$`of a meal` * d$meal) * (1 - taken * straight) -
                 (b$`plasma flow` * reached * taken + m$`cleared elsewhere`) * y$ammonia) /
      m$space))
}

# A protein in plasma and tissue: made and broken down in the whole, escaping from plasma.
set_protein <- function(p) {
  q <- p$protein
  plasma <- p$`red cells`$`blood volume` * (1 - p$`red cells`$hematocrit)
  two <- function(level, half_life, share, exchange) {
    broken <- log(2) / half_life
    list(level = level, broken = broken, escape = exchange * plasma,
         back = exchange * share / (1 - share) - broken, plasma = level * plasma,
         whole = level * plasma / share, made = broken * level * plasma / share)
  }
  list(albumin = two(q$albumin, q$`albumin half-life`, q$`plasma share of albumin`,
                     q$`exchange of albumin`),
       globulin = two(q$globulin, q$`globulin half-life`, q$`plasma share of globulin`,
                      q$`exchange of globulin`))
}

rest_protein <- function(a) {
  acute <- a$p$`acute phase`
  list(albumin = a$protein$albumin$whole, albumin_plasma = a$protein$albumin$plasma,
       globulin = a$protein$globulin$whole, globulin_plasma = a$protein$globulin$plasma,
       crp = acute$CRP, saa = acute$SAA, fibrinogen = acute$fibrinogen, factor7 = 1, factors = 1)
}

protein <- function(a, y, d, x) {
  q <- a$p$protein
  acute <- a$p$`acute phase`
  clot <- a$p$clotting
  albumin <- y$albumin_plasma / x$red_cells$plasma
  globulin <- y$globulin_plasma / x$red_cells$plasma
  # Change of the whole and of its plasma part.
  moved <- function(k, whole, plasma, made, lost, escaping) {
    both <- made - lost - d$bleeding * plasma + k$level * x$red_cells$given
    list(whole = both - k$broken * whole,
         plasma = both - k$broken * plasma - escaping + k$back * (whole - plasma))
  }
  k <- a$protein$albumin
  wanted <- 1 + q$`demand gain` * (1 - albumin / k$level)
  of_albumin <- moved(
    k, y$albumin, y$albumin_plasma,
    k$made * lesser(wanted, q$`reserve of synthesis` * x$liver$work) *
      (1 - q$`albumin lost to inflammation` * y$daily),
    (d$`kidney protein loss` + d$`gut protein loss`) * albumin / k$level,
    k$escape * albumin * x$water$dilution * (1 + q$`escape in inflammation` * y$daily))
  # Globulin does not escape faster in inflammation.
  lost <- q$`globulin lost by kidney` * d$`kidney protein loss` +
    q$`globulin lost by gut` * d$`gut protein loss`
  k <- a$protein$globulin
  of_globulin <- moved(
    k, y$globulin, y$globulin_plasma,
    k$made * (1 + q$`globulin in lasting inflammation` * y$chronic),
    lost * globulin / q$albumin, k$escape * globulin * x$water$dilution)
  acting <- function(what) acute[[what]] * (1 + acute[[paste(what, "gain")]] * y$daily)
  towards <- function(target, state, half_life) (target - state) * log(2) / half_life
  list(albumin = albumin, globulin = globulin,
       change = list(
         albumin = of_albumin$whole, albumin_plasma = of_albumin$plasma,
         globulin = of_globulin$whole, globulin_plasma = of_globulin$plasma,
         crp = towards(acting("CRP"), y$crp, acute$`CRP half-life`),
         saa = towards(acting("SAA"), y$saa, acute$`SAA half-life`),
         fibrinogen = towards(acting("fibrinogen") * x$liver$made, y$fibrinogen,
                              acute$`fibrinogen half-life`) - d$bleeding * y$fibrinogen,
         factor7 = towards(x$liver$work, y$factor7, clot$`factor VII half-life`) -
           d$bleeding * y$factor7,
         factors = towards(x$liver$work, y$factors, clot$`half-life of the other factors`) -
           d$bleeding * y$factors))
}

set_sugar <- function(p) list()

rest_sugar <- function(a) list(glucose = a$p$sugar$glucose, cholesterol = a$p$sugar$cholesterol,
                               triglycerides = a$p$sugar$triglycerides)

sugar <- function(a, y, d, x) {
  s <- a$p$sugar
  steroid <- a$p$steroid
  folds <- y$glucose / s$glucose
  sensitivity <- (1 - d$`insulin lack`) / (1 + steroid$`insulin resistance` * y$excess)
  insulin <- min(positive(sensitivity * (1 - s$`insulin lost in fright` * y$fright) *
                            (1 + s$`insulin gain` * (folds - 1))), s$`insulin most`)
  demand <- 3 / (1 + 2 * insulin) * (1 - s$`demand held by cortisol` * (1 - x$hormones$held))
  by_kidney <- s$`kidney share of output`
  output <- (1 - by_kidney) * lesser(demand, s$`liver output most` * x$liver$work) +
    by_kidney * lesser(demand, s$`liver output most` / 2)
  used <- (s$`uptake without insulin` + (1 - s$`uptake without insulin`) * insulin) * folds
  slow <- x$hormones$slow
  cholesterol <- s$cholesterol * x$liver$made / sqrt(y$effect) *
    (1 + 2 * steroid$`cholesterol gain` * slow) *
    (1 + s$`cholesterol without insulin` * (1 - sensitivity)) *
    (1 + s$`cholesterol in bile block` * x$liver$ductal) *
    (1 + s$`cholesterol of kidney loss` * d$`kidney protein loss`) /
    (1 + s$`cholesterol of gut loss` * d$`gut protein loss`)
  triglycerides <- s$triglycerides * (1 + 2 * s$`triglycerides of cortisol` * slow) *
    (1 + s$`triglycerides without insulin` * (1 - sensitivity))
  list(sensitivity = sensitivity,
       change = list(
         glucose = (s$`hepatic output` * (output * (1 + s$`output in fright` * y$fright) - used) -
                      x$kidney$spilled) / s$space,
         cholesterol = (cholesterol - y$cholesterol) / s$`lag of cholesterol`,
         triglycerides = (triglycerides - y$triglycerides) / s$`lag of triglycerides`))
}
