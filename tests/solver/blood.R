# Vessels and spleen, red cells and their iron, white cells, platelets. Amounts per kg.

# A chain of stages that pass cells on at one rate, each also losing some.
chain <- function(stages, inflow, rate, loss = 0) {
  c(inflow, rate * stages[-length(stages)]) - (rate + loss) * stages
}
last <- function(stages) stages[length(stages)]

set_red_cells <- function(p) {
  r <- p$`red cells`
  cells <- r$count * r$`blood volume` / (1 - r$`share in the spleen`) # 10^12/kg, spleen and all
  made <- cells / r$life
  ageing <- r$life - r$`young cells` - r$`share released as aggregates` * r$`reticulocytes in blood`
  # Volume and hemoglobin of an aged cell, from those of the mix of ages.
  share <- c(r$`share released as aggregates` * r$`reticulocytes in blood`, r$`young cells`,
             ageing) / r$life
  list(made = made, ageing_rate = 2 / ageing, share = share, cells = cells,
       volume = r$hematocrit / r$count /
         sum(share * c(r$`volume of reticulocytes`, r$`volume of young cells`, 1)),
       hemoglobin = r$hemoglobin / r$count /
         sum(share * c(r$`hemoglobin of reticulocytes`, r$`hemoglobin of young cells`, 1)))
}

rest_red_cells <- function(a) {
  r <- a$p$`red cells`
  k <- a$red_cells
  list(plasma = a$water$plasma, contraction = 0, epo = 0,
       marrow = rep(k$made * r$`marrow time` / 3, 3),
       marrow_retic = k$made * r$`reticulocytes in marrow`, marrow_lack = 0,
       retic = k$cells * k$share[1], young = k$cells * k$share[2],
       ageing = rep(k$cells * k$share[3] / 2, 2),
       retic_lack = 0, young_lack = 0, ageing_lack = c(0, 0), iron = 1)
}

# How reticulocytes, young and ageing cells move on; the lack of iron they carry moves alike.
ripening <- function(r, k, retic, young, ageing, released, aggregated, ripe, loss) {
  list(retic = aggregated * released - (ripe + loss) * retic,
       young = (1 - aggregated) * released + ripe * retic - (1 / r$`young cells` + loss) * young,
       ageing = chain(ageing, young / r$`young cells`, k$ageing_rate, loss))
}

red_cells <- function(a, y, d, x) {
  r <- a$p$`red cells`
  k <- a$red_cells
  bleeding <- d$bleeding
  # What the cells amount to.
  drive <- onset(y$epo, 0.1)
  lacking <- y$retic_lack + y$young_lack + sum(y$ageing_lack)
  cells <- y$retic + y$young + sum(y$ageing)
  swollen <- r$`volume of reticulocytes` + r$`volume of reticulocytes per decade` * drive
  volume <- k$volume * (swollen * y$retic + r$`volume of young cells` * y$young + sum(y$ageing) -
                          r$`volume lost without iron` * lacking)
  bh <- r$`hemoglobin lost without iron`
  hemoglobin <- r$`hemoglobin of reticulocytes` * y$retic +
    r$`hemoglobin of young cells` * y$young + sum(y$ageing) - bh * lacking # in aged cells' worth
  # Vessels and spleen.
  spleen <- r$`share in the spleen`
  relaxed <- positive(1 - y$contraction)
  outside <- 1 - spleen * relaxed
  plasma <- y$plasma * x$water$dilution
  blood <- plasma + outside * volume
  hematocrit <- outside * volume / blood
  # The call, the marrow and its iron.
  able <- x$nephrons$able
  call <- (r$hematocrit - hematocrit) / r$`hematocrit per decade` -
    r$`erythropoietin of the kidney` * (1 - able) / (able + 0.5) -
    r$`erythropoietin in inflammation` * y$daily
  epo <- (call - y$epo) / r$`lag of erythropoietin`
  kept <- 1 - r$`iron held in inflammation` * y$daily
  half <- r$`store at half supply`
  lack <- 1 - y$iron * (1 + half) / (y$iron + half) * kept
  most <- r$`output most`
  made <- k$made * most / (1 + (most - 1) * 10^(-r$`steepness of output` * y$epo)) *
    (1 - d$`marrow block`) * (1 - lack) / (1 - bh * lack)
  hurry <- 1 + r$`longer stay of reticulocytes` * drive
  released <- hurry * y$marrow_retic / r$`reticulocytes in marrow`
  pace <- 3 / r$`marrow time`
  # Blood.
  aggregate <- r$`share released as aggregates`
  aggregated <- aggregate + (1 - aggregate) * drive / (drive + 0.6)
  ripe <- 1 / (r$`reticulocytes in blood` * hurry)
  broken <- d$hemolysis + r$`loss in inflammation` * y$daily + r$`loss in uremia` * (1 - able)
  loss <- broken + bleeding * outside
  whole <- ripening(r, k, y$retic, y$young, y$ageing, released, aggregated, ripe, loss)
  lacks <- ripening(r, k, y$retic_lack, y$young_lack, y$ageing_lack, released * y$marrow_lack,
                    aggregated, ripe, loss)
  # Iron goes round; mg/kg.
  aged <- k$ageing_rate * (y$ageing[2] - bh * y$ageing_lack[2])
  absorbed <- (1 + (r$`iron absorption most` - 1) * onset(1 - y$iron, 0.05)) * kept - y$iron
  cycled <- aged + broken * (cells - bh * lacking) - made * (1 - bh * lack)
  leaked <- if (d$`iron lack` > 0) onset(y$iron - (1 - d$`iron lack`), 0.02) / 3 else 0
  # The room that dying cells leave is filled with plasma.
  drive_change <- if (y$epo > 0) (1 - (0.1 / (y$epo + 0.1))^2) * epo else 0
  volume_change <- k$volume *
    (swollen * whole$retic + r$`volume of reticulocytes per decade` * drive_change * y$retic +
       r$`volume of young cells` * whole$young + sum(whole$ageing) -
       r$`volume lost without iron` * (lacks$retic + lacks$young + sum(lacks$ageing)))
  list(plasma = plasma, blood = blood, hematocrit = hematocrit, outside = outside, cells = cells,
       volume = volume, hemoglobin = k$hemoglobin * hemoglobin, fright = 1 - relaxed, lack = lack,
       filling = x$water$dilution * (y$plasma + (1 - spleen) * volume) / r$`blood volume`,
       lysed = d$hemolysis * cells,
       heme = 0.8 * (aged + broken * hemoglobin) / k$made + 0.2,
       given = -(1 - spleen) * (volume_change + bleeding * outside * volume),
       change = list(
         plasma = log(2) / r$`refill half-time` *
           (r$`blood volume` - (1 - spleen) * volume - y$plasma) - bleeding * y$plasma,
         contraction = (d$fright - y$contraction) / r$`lag of the spleen` +
           r$`contraction by bleeding` * bleeding,
         epo = epo,
         marrow = chain(y$marrow, made, pace),
         marrow_retic = pace * y$marrow[3] - released,
         marrow_lack = (lack - y$marrow_lack) / (r$`marrow time` + r$`reticulocytes in marrow`),
         retic = whole$retic, young = whole$young, ageing = whole$ageing,
         retic_lack = lacks$retic, young_lack = lacks$young, ageing_lack = lacks$ageing,
         iron = (r$`iron absorption` * absorbed + 3.4 * k$hemoglobin * cycled) / r$`iron store` -
           leaked))
}

set_white_cells <- function(p) {
  w <- p$`white cells`
  blood <- p$`red cells`$`blood volume`
  whole <- (w$neutrophils + w$bands) * blood / (1 - w$`marginated share`)
  leaving <- log(2) / w$`half-life in blood`
  banded <- w$bands / (w$neutrophils + w$bands)
  mature <- 21 / w$`time maturing`                       # fifteen stages before bands, six of bands
  release <- mature * ((1 - banded)^(-1 / 6) - 1)        # of bands, so that blood holds its share
  list(blood = blood, whole = whole, banded = banded, leaving = leaving, flow = leaving * whole,
       divide = 3 / w$`time dividing`, mature = mature, keep = 21 / w$`time stored`,
       release = release, stored = leaving * whole * (1 - banded) * w$`time stored`)
}

rest_white_cells <- function(a) {
  w <- a$p$`white cells`
  k <- a$white_cells
  list(stimulation = 0, release = 0, dividing = rep(k$flow / k$divide, 3),
       maturing = rep(k$flow / k$mature, 15),
       banded = k$flow / k$mature * (k$mature / (k$mature + k$release))^(1:6),
       stored = rep(k$stored / 21, 21),
       bands = k$whole * k$banded, segmented = k$whole * (1 - k$banded),
       toxic_marrow = 0, toxic = 0,
       lymphocytes = w$lymphocytes * k$blood,
       monocyte_making = 1, monocytes = w$monocytes * k$blood,
       eosinophil_making = 1, eosinophils = w$eosinophils * k$blood)
}

# Neutrophils from the dividing pool to blood, and the other white cells.
white_cells <- function(a, y, d, x) {
  w <- a$p$`white cells`
  k <- a$white_cells
  cortisol <- x$hormones$cortisol
  fright <- x$red_cells$fright
  lack <- felt(1 - (y$bands + y$segmented) / k$whole, 0.2)
  empty <- felt(1 - sum(y$stored) / k$stored, 0.2)
  most <- w$`most release`
  wanted <- most * join((y$fast + w$`release of cortisol` * cortisol) / most,
                        w$`release of lack` * lack / most)
  stimulated <- function(what) 1 + w[[what]] * y$stimulation
  divide <- k$divide * stimulated("pace of stimulated division")
  pace <- stimulated("pace of stimulated transit")
  mature <- pace * k$mature
  keep <- pace * k$keep
  from_store <- w$`release of stored cells` * y$release
  from_bands <- pace * k$release +
    from_store * (w$`bands released` + w$`bands of an empty store` * empty)
  bands <- from_bands * sum(y$banded)
  segmented <- from_store * sum(y$stored) + keep * last(y$stored)
  # Those that cling to vessels are not counted and not bled.
  clinging <- w$`marginated share` * (1 - w$`freed by fright` * fright) *
    (1 - w$`freed by cortisol` * cortisol)
  early <- lesser(w$`early clinging` * y$fast^2 * onset(y$fast - y$daily, 0.05), 0.95)
  free <- (1 - clinging) * (1 - early)
  loss <- k$leaving * (1 + w$`demand of tissue` * y$fast^8) *
    (1 - w$`stay of cortisol` * cortisol) * (1 - w$`stay of inflammation` * y$daily) +
    d$bleeding * free
  full <- w$`toxic change from a full store`
  open <- 1 - d$`marrow block`
  resting <- function(what) w[[what]] * k$blood
  bled <- function(cells) d$bleeding * cells
  list(free = free, fright = fright,
       change = list(
         stimulation = (join(d$inflammation, w$`stimulation of lack` * lack) - y$stimulation) /
           w$`lag of stimulation`,
         release = (wanted - y$release) / w$`lag of release`,
         dividing = chain(y$dividing, k$flow * stimulated("input of stimulation"), divide),
         maturing = chain(y$maturing, divide * last(y$dividing) *
                            stimulated("output of stimulation") * open, mature),
         banded = chain(y$banded, mature * last(y$maturing), mature, from_bands),
         stored = chain(y$stored, mature * last(y$banded), keep, from_store),
         bands = bands - loss * y$bands,
         segmented = segmented - loss * y$segmented,
         toxic_marrow = (y$fast^2 * (full + (1 - full) * empty) - y$toxic_marrow) /
           w$`lag of toxic change`,
         toxic = (bands + segmented) * y$toxic_marrow - loss * y$toxic,
         lymphocytes = w$`lymphocyte exchange` *
           (resting("lymphocytes") * (1 - w$`lymphocytes of cortisol` * cortisol) *
              (1 + w$`lymphocytes of inflammation` * y$chronic) - y$lymphocytes) -
           bled(y$lymphocytes),
         monocyte_making = ((1 + w$`monocytes of inflammation` * d$inflammation) * open -
                              y$monocyte_making) / w$`time of monocyte making`,
         monocytes = log(2) / w$`monocyte half-life` *
           (resting("monocytes") * y$monocyte_making - y$monocytes) - bled(y$monocytes),
         eosinophil_making = ((1 + w$`eosinophils of parasites` * d$parasites) * open -
                                y$eosinophil_making) / w$`time of eosinophil making`,
         eosinophils = log(2) / w$`eosinophil half-life` *
           (resting("eosinophils") * y$eosinophil_making *
              (1 - w$`eosinophils of cortisol` * cortisol) - y$eosinophils) - bled(y$eosinophils)))
}

set_platelets <- function(p) {
  t <- p$platelets
  list(whole = t$count * p$`red cells`$`blood volume` / (1 - t$`share in spleen`))
}

rest_platelets <- function(a) list(platelet_call = 0, megakaryocytes = 1,
                                   platelets = rep(a$platelets$whole / 5, 5))

platelets <- function(a, y, d, x) {
  t <- a$p$platelets
  all <- sum(y$platelets)
  w <- y$platelet_call
  answer <- (w + sqrt(w^2 + 1) + t$`call of lack` * felt(w, 0.15)) *
    (1 + t$`call of inflammation` * y$daily + t$`call of iron lack` * x$red_cells$lack)
  most <- t$`most output`
  output <- most * lesser(answer / most, 1) * (1 - d$`marrow block`)
  loss <- d$`platelet death` + t$`use in inflammation` * y$fast^6 +
    d$bleeding * (1 - t$`share in spleen`)
  list(all = all,
       change = list(
         platelet_call = (1 - all / a$platelets$whole - w) / t$`lag of call`,
         megakaryocytes = (output - y$megakaryocytes) / t$`time in megakaryocytes`,
         platelets = chain(y$platelets, a$platelets$whole / t$life * y$megakaryocytes, 5 / t$life,
                           loss)))
}

# The blood count.
count <- function(a, y, x) {
  r <- x$red_cells
  w <- a$p$`white cells`
  t <- a$p$platelets
  fright <- r$fright
  neutrophils <- y$segmented * x$white_cells$free / r$blood
  bands <- y$bands * x$white_cells$free / r$blood
  lymphocytes <- y$lymphocytes * (1 + w$`lymphocytes of fright` * fright) / r$blood
  monocytes <- y$monocytes / r$blood *
    (1 + w$`monocytes of cortisol` * x$hormones$cortisol + w$`monocytes of fright` * fright)
  eosinophils <- y$eosinophils / r$blood
  list(RBC = r$outside * r$cells / r$blood, Hb = r$outside * r$hemoglobin / r$blood,
       Hct = r$hematocrit, PCV = r$hematocrit, MCV = 1000 * r$volume / r$cells,
       MCH = r$hemoglobin / r$cells, MCHC = r$hemoglobin / r$volume,
       reticulocytes = 1000 * r$outside * y$retic / r$blood,
       WBC = neutrophils + bands + lymphocytes + monocytes + eosinophils,
       neutrophils = neutrophils, bands = bands, lymphocytes = lymphocytes, monocytes = monocytes,
       eosinophils = eosinophils,
       platelets = x$platelets$all * (1 - t$`share in spleen`) / r$blood *
         (1 + t$`rise with the spleen` * fright),
       toxic = y$toxic / (y$bands + y$segmented))
}
