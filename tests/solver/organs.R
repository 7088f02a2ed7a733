# Hormones, liver, muscle and heart, pancreas and gut: they lead and are not led.
#
# Of each system: set_X(p) works out what is constant in an animal, rest_X(a) its health, and
# X(a, y, d, x) what follows from the state y and the drives d, `x` holding the systems before it.
# Its member `change` are the derivatives of its own states.

set_hormones <- function(p) list()

rest_hormones <- function(a) list(fast = 0, daily = 0, chronic = 0, adrenal = 1, stressed = 0,
                                  given = 0, own = 0, excess = 0, thyroid = 1, effect = 1,
                                  fright = 0)

hormones <- function(a, y, d, x) {
  h <- a$p$hormones
  reserve <- h$`reserve of the adrenal cortex`
  held <- (1 + reserve) * y$adrenal / (y$adrenal + reserve)
  dose <- y$given + y$own
  illness <- h$`cortisol in illness` * felt(y$fast - y$chronic, 0.1)
  allowed <- 0.05 + 0.95 / (1 + y$given / h$`suppressing dose`) # of the cortex beside given steroid
  list(held = held,
       cortisol = join(y$stressed, dose / (dose + h$`half-effect dose`)), # its effect on cells
       slow = y$excess / (1 + y$excess),
       level = h$cortisol * ((held + h$`cortisol in stress` * y$stressed) * allowed +
                               h$`cortisol of own excess` * y$own),
       change = list(
         fast = (d$inflammation - y$fast) / h$`fast trace of inflammation`,
         daily = (d$inflammation - y$daily) / h$`daily trace of inflammation`,
         chronic = (d$inflammation - y$chronic) / h$`chronic trace of inflammation`,
         adrenal = -d$`adrenal death` * y$adrenal,
         stressed = (held * join(d$stress, illness) - y$stressed) / h$`lag of cortisol`,
         given = (d$`steroid dose` - y$given) / h$`lag of cortisol`,
         own = (d$`own steroid` - y$own) / h$`lag of cortisol`,
         excess = (d$`steroid dose` + d$`own steroid` - y$excess) / a$p$steroid$`lag in blood`,
         thyroid = (max(0.05, 1 + d$thyroxine) - y$thyroid) * log(2) / h$`thyroxine half-life`,
         effect = (y$thyroid - y$effect) / h$`lag of thyroid effect`,
         fright = (d$fright - y$fright) / h$`lag of fright`))
}

set_liver <- function(p) list(cytosol = log(2) / p$liver$`dying cytosol half-time`,
                              mitochondria = log(2) / p$liver$`dying mitochondria half-time`)

rest_liver <- function(a) list(living = 1, scar = 0, dying = 0, dying_mito = 0, leak = 0, ducts = 0,
                               necrosis = 0, adapted = 0, alp = 0, ggt = 0, steroid_fast = 0,
                               steroid_middle = 0, steroid_slow = 0, pheno = 0)

liver <- function(a, y, d, x) {
  l <- a$p$liver
  steroid <- a$p$steroid
  pheno <- a$p$phenobarbital
  v <- y$living
  ductal <- join(y$ducts, l$`cholestasis of scar` * y$scar^2)
  lost <- join(join(ductal, y$necrosis), d$`liver fat`)
  cells <- lost - ductal
  shunted <- join(d$shunt, l$`acquired shunt of scar` * y$scar^3)
  reached <- 1 - a$p$`bile acids`$`portal share` * shunted
  work <- v * reached
  half <- a$p$kidney$`liver share at half urea`
  calm <- 1 - l$`adaptation of leak` * y$adapted
  trickle <- l$`death in obstruction` * y$ducts
  killed <- (d$`liver death` + trickle) * v
  room <- 1 - l$`portal share of growth` * d$shunt - v - y$scar
  poisoned <- 1 - exp(-l$`cholestasis after necrosis` * y$dying_mito)
  dose <- d$`steroid dose` + d$`own steroid`
  called <- d$`liver leak` + steroid$`leak gain` * y$steroid_fast^2 +
    steroid$`slow leak gain` * y$steroid_slow^2 + pheno$`leak gain` * y$pheno +
    calm * (l$`leak in obstruction` * y$ducts + l$`leak in canalicular cholestasis` * cells) +
    a$p$hormones$`liver leak of thyroxine` * onset(y$effect - 1, 0.1)
  membrane <- l$`response of membrane enzymes`
  list(ductal = ductal, lost = lost, shunted = shunted, reached = reached, work = work, calm = calm,
       made = work * (1 + half) / (work + half),
       cytosol = a$liver$cytosol * y$dying, mitochondria = a$liver$mitochondria * y$dying_mito,
       change = list(
         living = l$regrowth * v * room - killed,
         scar = (d$`liver scar` + trickle) * v,
         dying = killed - a$liver$cytosol * y$dying,
         dying_mito = killed - a$liver$mitochondria * y$dying_mito,
         leak = (called - y$leak) / l$`onset of leak`,
         ducts = (d$`bile block` - y$ducts) / l$`filling of ducts`,
         necrosis = (max(d$`canalicular block`, poisoned) - y$necrosis) /
           l$`lag of cholestasis after necrosis`,
         adapted = (y$ducts - y$adapted) / l$`adaptation to obstruction`,
         alp = (lost - y$alp) / membrane,
         ggt = (ductal + l$`GGT answer to canalicular cholestasis` * cells - y$ggt) / membrane,
         steroid_fast = (dose / (dose + steroid$`half-effect dose`) - y$steroid_fast) /
           steroid$`fast lag`,
         steroid_middle = (y$steroid_fast - y$steroid_middle) / steroid$`middle lag`,
         steroid_slow = (y$steroid_middle - y$steroid_slow) / steroid$`slow lag`,
         pheno = (d$`phenobarbital dose` / (d$`phenobarbital dose` + pheno$`half-effect dose`) -
                    y$pheno) / pheno$lag))
}

# The pace at which healthy heart and muscle shed: troponin comes from the heart alone, CK from
# both.
set_muscle <- function(p) {
  m <- p$muscle
  h <- p$heart
  cleared <- function(pool) pool$`set point` * pool$volume * log(2) / pool$`half-life`
  ck <- p$pools$CK
  reaching <- h$recovery * h$mass
  heart <- cleared(p$pools$cTnI) / (reaching * p$pools$cTnI$`heart content`)
  list(heart_pace = heart,
       pace = (cleared(ck) - reaching * ck$`heart content` * heart) /
         (m$recovery * m$mass * ck$`muscle content`),
       out = log(2) / m$`dying cytosol half-time`, heart_out = log(2) / h$`dying cytosol half-time`)
}

rest_muscle <- function(a) {
  m <- a$p$muscle
  list(muscle = 1, muscle_dying = 0,
       fluid = (1 - m$`direct share`) * a$muscle$pace / m$`lymph rate`,
       heart = 1, heart_dying = 0)
}

muscle <- function(a, y, d, x) {
  m <- a$p$muscle
  k <- a$muscle
  shed <- k$out * y$muscle_dying + k$pace * y$muscle
  torn <- d$`muscle death` * y$muscle
  starved <- d$`heart death` * y$heart
  lymph <- m$`lymph rate` * y$fluid
  list(flow = m$`direct share` * shed + lymph,
       heart_flow = k$heart_out * y$heart_dying + k$heart_pace * y$heart,
       change = list(muscle = m$regrowth * y$muscle * (1 - y$muscle) - torn,
                     muscle_dying = torn - k$out * y$muscle_dying,
                     fluid = (1 - m$`direct share`) * shed - lymph,
                     heart = -starved, heart_dying = starved - k$heart_out * y$heart_dying))
}

set_digestion <- function(p) list()

rest_digestion <- function(a) list(acini = 1, acinar_leak = 0, gut = 1, fat = 0)

digestion <- function(a, y, d, x) {
  g <- a$p$digestion
  lining <- 1 / (1 + d$`gut protein loss` / g$`protein loss at half gut work`)
  list(change = list(acini = -d$`acinar death` * y$acini,
                     acinar_leak = (d$`acinar leak` - y$acinar_leak) / g$`onset of acinar leak`,
                     gut = (lining - y$gut) / g$`lag of gut work`,
                     fat = (g$`triglycerides of a meal` * d$meal - y$fat) / g$`lag of fat`))
}
