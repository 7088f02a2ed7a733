#include "published/checks.h"

#include <algorithm>
#include <cstdio>

namespace published {

namespace {

const double phosphateMg = 0.3229; // mmol/L in 1 mg/dL
const double sdmaUg = 0.04945;     // umol/L in 1 ug/dL

const std::string finco = "Finco & Cornelius 1977, Burrows & Bovee 1978 (from memory)";
const std::string polzin = "Slatopolsky & Bricker; Polzin; DiBartola (from memory)";
const std::string nabity = "Nabity et al., J Vet Intern Med 2015 (X-linked nephropathy)";
const std::string hall = "Hall et al., J Vet Intern Med 2014; IRIS 2019 stages";
const std::string merck = "Center, Merck Veterinary Manual, other biochemical measures, 2023";

double gfr(const Course& c, std::size_t look) {
    return c.at(look).value[cistern::body::reading::gfr];
}
Course afterLoss(Kind kind, double share) {
    return reference::course(reference::adult(kind), insult("nephron loss", share, 0, day, kind),
                             {0, 120 * day});
}
/// The loss of nephrons where a rising reading of the settled animal reaches a value.
template<class Reading>
Course lossAt(Kind kind, double value, Reading reading) {
    double low = 0.01, high = 0.97;
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (low + high);
        (reading(afterLoss(kind, middle)) < value ? low : high) = middle;
    }
    return afterLoss(kind, high);
}

void addBlock(std::vector<Check>& list) {
    const auto ill =
        insult("urinary obstruction", 1, 0, 72, cat) + insult("fasting", 72, 0, 72, cat);
    const auto c = reference::course(reference::adult(cat), ill, reference::every(1, 144));
    const Line k(c, Analyte::K), p(c, Analyte::P), co2(c, Analyte::tCO2), ca(c, Analyte::Ca),
        na(c, Analyte::Na);
    const double least[] = {5.5, 7, 8}, most[] = {6.5, 9, 10};
    const char* told[] = {"5.5 to 6.5", "7 to 9", "8 to 10"};
    for (int i = 0; i < 3; ++i)
        list.push_back({"cat, urethra blocked: potassium at " + std::to_string(24 * (i + 1)) + " h",
                        told[i], least[i], most[i], "mmol/L", k.at(24.0 * (i + 1)), Basis::fitted,
                        finco, span});
    list.push_back({"cat, urethra blocked: phosphate above 5.5 mg/dL after", "24 h", 6, 36, "h",
                    p.rises(5.5 * phosphateMg), Basis::independent, "Problem-Based Feline Medicine",
                    "the list's 12 h"});
    list.push_back({"cat, urethra blocked: phosphate at 72 h", "12 to 20", 12, 20, "mg/dL",
                    p.at(72) / phosphateMg, Basis::fitted, finco, span});
    const std::string acid = "260 cats with blocked urethra (University of California)";
    list.push_back({"cat, urethra blocked: total CO2 at 48 h", "low: acid blood", 6, 14, "mmol/L",
                    co2.at(48), Basis::independent, acid, "the low end of the interval"});
    list.push_back({"cat, urethra blocked: calcium at 48 h", "falls", 0.75, 0.97, "fold",
                    ca.fold(48), Basis::independent, acid, "the change within a cat"});
    list.push_back({"cat, urethra blocked: sodium at 48 h less healthy", "falls", -15, -1.5,
                    "mmol/L", na.at(48) - na.at(0), Basis::independent, acid,
                    "1 %: the change within a cat",
                    "a blocked cat that still drinks is not modeled"});
    list.push_back({"cat, freed after 72 h: potassium below 5.5 mmol/L after", "24 to 72 h", 2, 72,
                    "h", k.returns(5.5) - 72, Basis::independent,
                    "Drobatz; clinical texts (from memory)", "sooner is told too"});
}

void addChronic(std::vector<Check>& list, Kind kind) {
    const double high = kind == dog ? 5.4 : 5.5;
    for (double share : {0.5, 0.75}) {
        const auto c = afterLoss(kind, share);
        list.push_back({who(kind, share == 0.5 ? "half of the nephrons lost: phosphate"
                                               : "3/4 of the nephrons lost: phosphate"),
                        "held until filtration is a quarter", 2.6, high, "mg/dL",
                        c.at(1).level(Analyte::P) / phosphateMg, Basis::independent, polzin,
                        "the interval"});
    }
    const auto late = afterLoss(kind, 0.9);
    list.push_back({who(kind, "9/10 of the nephrons lost: phosphate"), "up", high, 15, "mg/dL",
                    late.at(1).level(Analyte::P) / phosphateMg, Basis::independent, polzin,
                    "above the interval"});
    list.push_back({who(kind, "9/10 of the nephrons lost: potassium"), "normal or low", 3.5,
                    kind == dog ? 5.4 : 5.5, "mmol/L", late.at(1).level(Analyte::K),
                    Basis::independent, polzin, "the interval"});
    list.push_back({who(kind, "9/10 of the nephrons lost: total CO2 over healthy"),
                    "acid blood, late", 0.5, 0.95, "fold", fold(late, Analyte::tCO2),
                    Basis::independent, polzin, "a twentieth down at the least"});
    list.push_back({who(kind, "9/10 of the nephrons lost: anion gap over healthy"), "up", 1.02, 2,
                    "fold", fold(late, Analyte::anionGap), Basis::independent, polzin,
                    "a direction"});
    list.push_back({who(kind, "9/10 of the nephrons lost: magnesium over healthy"), "up", 1.02, 2,
                    "fold", fold(late, Analyte::Mg), Basis::independent,
                    "Cornell, urea and creatinine", "a direction"});
    const auto dry = reference::course(reference::adult(kind),
                                       insult("dehydration", 0.1, 0, day, kind), {0, day});
    list.push_back({who(kind, "10 % dry: potassium"), "normal or low", 3.5, high, "mmol/L",
                    dry.at(1).level(Analyte::K), Basis::independent, "Stockham & Scott",
                    "the interval"});
}

void addWaste(std::vector<Check>& list) {
    const double filtration[] = {3, 1.5, 0.75, 0.36}, ug[] = {14.4, 21.6, 36, 67};
    const char* told[] = {"14.4", "21.6", "36", "67"};
    const double healthy = gfr(afterLoss(dog, 0.01), 0);
    for (int i = 0; i < 4; ++i) {
        const double g = std::min(filtration[i], healthy);
        const Course c = lossAt(dog, -g, [](const Course& one) { return -gfr(one, 1); });
        const double level = (i == 0 ? c.at(0) : c.at(1)).level(Analyte::SDMA) / sdmaUg;
        char what[64];
        std::snprintf(what, sizeof what, "dog, filtration of %.2g mL/min/kg: SDMA", filtration[i]);
        list.push_back(
            {what, told[i], 0.85 * ug[i], 1.15 * ug[i], "ug/dL", level, Basis::fitted, nabity,
             "the list's 15 %",
             i == 0 ? "healthy young dogs of that study had 13 to 14, adults have 10" : ""});
    }
    const double mg[] = {1.6, 2.8, 5.0}, limit[] = {14, 25, 38}, part[] = {0.15, 0.2, 0.15};
    for (int i = 0; i < 3; ++i) {
        const Course c = lossAt(cat, mg[i], [](const Course& one) {
            return one.at(1).level(Analyte::creatinine) / creatinineMg;
        });
        char what[64];
        std::snprintf(what, sizeof what, "cat, creatinine at %.1f mg/dL: SDMA", mg[i]);
        list.push_back({what, std::to_string(int(limit[i])), (1 - part[i]) * limit[i],
                        (1 + part[i]) * limit[i], "ug/dL", c.at(1).level(Analyte::SDMA) / sdmaUg,
                        Basis::fitted, hall, "15 to 20 %: limits of stages, not means"});
    }
    for (Kind kind : {dog, cat}) {
        const Course at =
            lossAt(kind, 0.4, [](const Course& one) { return 1 - gfr(one, 1) / gfr(one, 0); });
        list.push_back({who(kind, "40 % of filtration lost: SDMA"), "above 14, about 18", 14, 22,
                        "ug/dL", at.at(1).level(Analyte::SDMA) / sdmaUg, Basis::independent,
                        "McKenna et al., J Vet Intern Med 2020",
                        "cut-offs of best and of most sensitivity, and a fifth"});
        const double high = kind == dog ? 1.3 : 2.1;
        const Course early = lossAt(
            kind, 14, [](const Course& one) { return one.at(1).level(Analyte::SDMA) / sdmaUg; });
        list.push_back(
            {who(kind, "SDMA just above 14: creatinine"), "still inside its interval", 0.6, high,
             "mg/dL", early.at(1).level(Analyte::creatinine) / creatinineMg, Basis::independent,
             "Hall et al., J Vet Intern Med 2014, 2016", "the interval",
             kind == dog ? "both follow filtration here, and creatinine by the greater fold" : ""});
    }
}

void addLosses(std::vector<Check>& list, Kind kind) {
    const double rate = 0.35 / day, long_ = 150 * day; // [g/kg/h], [h]
    const auto kidney =
        reference::course(reference::adult(kind),
                          insult("protein-losing nephropathy", rate, 0, long_, kind), {0, long_});
    const auto gut =
        reference::course(reference::adult(kind),
                          insult("protein-losing enteropathy", rate, 0, long_, kind), {0, long_});
    list.push_back({who(kind, "one turnover of albumin lost by urine: albumin"), "0.5 to 0.9 fold",
                    0.5, 0.9, "fold", fold(kidney, Analyte::albumin), Basis::fitted,
                    "Definition of protein over creatinine; " + merck, span});
    const double urine = kidney.at(1).level(Analyte::UPC), made = kind == dog ? 38.0 : 45.0;
    list.push_back(
        {who(kind, "albumin lost by urine: protein over creatinine in urine, albumin being whole"),
         kind == dog ? "350 mg over 38: 9.2" : "350 mg over 45: 7.8", 0.9 * 350 / made,
         1.1 * 350 / made, "1", urine / fold(kidney, Analyte::albumin), Basis::consequence,
         "Definition of protein over creatinine",
         "a tenth: the healthy protein and the fall of creatinine"});
    list.push_back({who(kind, "albumin lost by urine: globulin"), "normal", 0.85, 1.1, "fold",
                    fold(kidney, Analyte::globulin), Basis::independent, "Case 6, dvm360.com",
                    "15 %: inside the interval"});
    list.push_back({who(kind, "albumin lost by urine: cholesterol"), "high", 1.2, 3, "fold",
                    fold(kidney, Analyte::cholesterol), Basis::independent, merck, "a direction"});
    list.push_back({who(kind, "albumin lost by the gut: albumin"), "low", 0.3, 0.85, "fold",
                    fold(gut, Analyte::albumin), Basis::independent, "Case 6, dvm360.com",
                    "15 % down is low"});
    list.push_back({who(kind, "albumin lost by the gut: globulin"), "low too", 0.3, 0.85, "fold",
                    fold(gut, Analyte::globulin), Basis::fitted, "Case 6, dvm360.com",
                    "15 % down is low"});
    list.push_back({who(kind, "albumin lost by the gut: cholesterol"), "low", 0.3, 0.85, "fold",
                    fold(gut, Analyte::cholesterol), Basis::independent, "From memory",
                    "15 % down is low"});
    list.push_back({who(kind, "albumin lost by the gut: protein over creatinine in urine"),
                    "normal: below 0.2", 0, 0.2, "1", gut.at(1).level(Analyte::UPC),
                    Basis::independent, "IRIS 2019", bound});
}

void addAcutePhase(std::vector<Check>& list, Kind kind) {
    const auto c = follow(kind, insult("inflammation", 0.9, 0, 36, kind), 12);
    const Analyte chief = kind == dog ? Analyte::CRP : Analyte::SAA;
    const Line acute(c, chief);
    const std::string ceron = "Ceron, Eckersall & Martinez-Subiela 2005 (from memory)";
    list.push_back({who(kind, "inflammation for a day and a half: chief acute phase protein"),
                    kind == dog ? "up to 100 times" : "a hundred times and more", 30,
                    kind == dog ? 110.0 : 300.0, "fold", acute.peakFold(), Basis::independent,
                    ceron, "a third to the most"});
    list.push_back({who(kind, "inflammation from hour 0: acute phase protein highest at"),
                    "24 to 48 h", 24, 48, "h", acute.peakHour(), Basis::fitted, ceron, span});
    list.push_back({who(kind, "a week after inflammation: acute phase protein"), "normal again", 0,
                    5, "fold", acute.fold(36 + 7 * day), Basis::fitted, ceron,
                    kind == dog ? "10 mg/L: ten times the median; half of that"
                                : "the upper limit of the cat"});
    const auto longer = follow(kind, insult("inflammation", 0.6, 0, 21 * day, kind), 21);
    list.push_back({who(kind, "inflammation of 60 %: albumin on day 7"), "10 to 30 % down", 70, 90,
                    "%", 100 * Line(longer, Analyte::albumin).fold(7 * day), Basis::fitted, merck,
                    span});
    list.push_back({who(kind, "inflammation of 60 % for 3 weeks: globulin"), "up", 1.05, 1.8,
                    "fold", Line(longer, Analyte::globulin).fold(21 * day), Basis::independent,
                    "Tizard (from memory)", "a direction"});
    list.push_back({who(kind, "inflammation of 60 %: fibrinogen on day 5"), "2 to 3 times", 1.5, 3,
                    "fold", Line(longer, Analyte::fibrinogen).fold(5 * day), Basis::independent,
                    ceron, "from half-way on: not the greatest drive"});
}

void addClotting(std::vector<Check>& list) {
    const auto stop = reference::course(
        reference::adult(dog), {{Drive::liverDeath, 0, 0.25, reference::deathRate(0.999, 0.25)}},
        reference::every(0.25, 3 * day));
    const Line pt(stop, Analyte::PT), aptt(stop, Analyte::aPTT);
    list.push_back({"dog, liver gone: prothrombin time beyond 1.19 times its middle after",
                    "9.4 h (7 to 13)", 7, 13, "h", pt.rises(1.19 * pt.first()), Basis::consequence,
                    "Mischke et al., Vet J 2003;166:79 (factor VII)",
                    "the printed span of reagents"});
    list.push_back({"dog, liver gone: aPTT leaves its interval later, by",
                    "PT first; PTT 12 h later", 3, 30, "h",
                    aptt.rises(1.19 * aptt.first()) - pt.rises(1.19 * pt.first()),
                    Basis::independent, "WikiVet, anticoagulants", "the order; days overlap"});
    list.push_back({"dog, liver gone: PT at 24 h", "above 1.8 times", 1.8, 6, "fold", pt.fold(24),
                    Basis::independent, "Mischke et al., Vet J 2003;166:79",
                    "10 % of factor VII gives 1.83; less is left"});
    const auto half = reference::course(
        reference::adult(dog), {{Drive::liverDeath, 0, 0.25, reference::deathRate(0.5, 0.25)}},
        {0, 3 * day});
    list.push_back({"dog, half of the liver gone: PT", "normal", 5.7, 8.0, "s",
                    half.at(1).level(Analyte::PT), Basis::independent, merck, "the interval"});
}

} // namespace

std::vector<Check> salts() {
    std::vector<Check> list;
    addBlock(list);
    for (Kind kind : {dog, cat}) addChronic(list, kind);
    return list;
}

std::vector<Check> waste() {
    std::vector<Check> list;
    addWaste(list);
    return list;
}

std::vector<Check> lostProtein() {
    std::vector<Check> list;
    for (Kind kind : {dog, cat}) {
        addLosses(list, kind);
        addAcutePhase(list, kind);
    }
    return list;
}

std::vector<Check> clotting() {
    std::vector<Check> list;
    addClotting(list);
    return list;
}

} // namespace published
