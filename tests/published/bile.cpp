#include "published/checks.h"

#include <cmath>

namespace published {

namespace {

const std::string gomaa = "Gomaa, Adv Anim Vet Sci 2019;7(s2):44 (seven ligated dogs)";
const std::string cameron = "Cameron, J Surg Res 1963 (ligation, gall bladder removed)";
const std::string delta = "Delta bilirubin in obstructed dogs 1997, PMID 9024822";
const std::string center = "Center, Vet Clin North Am Small Anim Pract 2007;37:297 (from memory)";
const std::string cats = "Am J Vet Res 1983;44:1822 (duct obstruction, cats)";
const std::string cats77 = "Am J Vet Res 1977;38:963 (duct ligation, cats)";
const std::string lipidosis = "Center et al., J Vet Intern Med 1993;7:349 (from memory)";

Windows block(Kind kind, double share, double days) {
    return insult("bile duct obstruction", share, 0, days * day, kind);
}
double mg(const Line& bilirubin, double hour) {
    return bilirubin.at(hour) / bilirubinMg;
}

void addDogEnzymes(std::vector<Check>& list) {
    const auto c = follow(dog, block(dog, 1, 60), 60);
    const Line alp(c, Analyte::ALP), ggt(c, Analyte::GGT);
    list.push_back({"dog, duct tied: ALP on day 3", "up", 1.5, 100, "fold", alp.fold(3 * day),
                    Basis::fitted, gomaa, "half more is beyond day-to-day change"});
    list.push_back({"dog, duct tied: GGT on day 3", "up", 1.5, 100, "fold", ggt.fold(3 * day),
                    Basis::fitted, gomaa, "as ALP"});
    list.push_back({"dog, duct tied: ALP peaks on", "week 2", 7, 16, "d", alp.peakHour() / day,
                    Basis::fitted, gomaa, "a day or two: sampled weekly"});
    list.push_back({"dog, duct tied: GGT peaks on", "week 2", 7, 16, "d", ggt.peakHour() / day,
                    Basis::independent, gomaa, "as ALP"});
    list.push_back({"dog, duct tied: ALP on day 5", "15 fold by day 4 to 7", 7, 30, "fold",
                    alp.fold(5 * day), Basis::fitted, center, "half to twice"});
    list.push_back({"dog, duct tied: ALP at its peak", "up to 100 fold", 20, 100, "fold",
                    alp.peakFold(), Basis::fitted, center, "'up to': a fifth of it is the least"});
    list.push_back({"dog, duct tied: GGT on day 4", "1 to 4 fold", 1, 4, "fold", ggt.fold(4 * day),
                    Basis::independent, center, "the printed span",
                    "GGT was fitted to its height in weeks 1 to 2, and rises on one lag"});
    list.push_back({"dog, duct tied: GGT at its peak", "10 to 50 fold by weeks 1 to 2", 10, 50,
                    "fold", ggt.peakFold(), Basis::fitted, center, "the printed span"});
    list.push_back({"dog, duct tied: ALP in week 8 over its peak", "lowest in week 8", 0, 0.8, "1",
                    alp.at(56 * day) / alp.peak(), Basis::fitted, gomaa, "clearly down: a fifth"});
    list.push_back({"dog, duct tied: ALT at its peak", "up", 2, 15, "fold",
                    Line(c, Analyte::ALT).peakFold(), Basis::fitted, gomaa,
                    "up, and less than ALP"});
    list.push_back({"dog, duct tied: albumin on day 7", "low from day 3", 0.6, 0.95, "fold",
                    Line(c, Analyte::albumin).fold(7 * day), Basis::independent, gomaa,
                    "a twentieth below is the least a laboratory sees",
                    "an obstruction does not lower synthesis here; the dogs had been operated on"});
}

void addDogBilirubin(std::vector<Check>& list) {
    const auto c = follow(dog, block(dog, 1, 60), 60);
    const Line total(c, Analyte::bilirubin);
    const Line bound(c, cistern::body::reading::delta);
    list.push_back({"dog, duct tied: bilirubin on day 2.5", "above 2.5 by day 2 to 3", 2.5, 8,
                    "mg/dL", mg(total, 60), Basis::fitted, cameron, "up to the plateau's end"});
    list.push_back({"dog, duct tied: bilirubin on day 7", "stays at 4 to 8", 4, 8, "mg/dL",
                    mg(total, 7 * day), Basis::fitted, cameron, "the printed span"});
    list.push_back({"dog, duct tied: bilirubin at most in 60 d", "stays at 4 to 8", 4, 8, "mg/dL",
                    total.peak() / bilirubinMg, Basis::independent, cameron, "the printed span"});
    list.push_back({"dog, duct tied: bilirubin on day 4 over day 11", "plateau within 2 d", 0.75, 1,
                    "1", total.at(4 * day) / total.at(11 * day), Basis::independent, delta,
                    "a quarter: another study peaks in week 2"});
    list.push_back({"dog, duct tied: bilirubin peaks on", "week 2", 7, 16, "d",
                    total.peakHour() / day, Basis::fitted, gomaa, "a day or two: sampled weekly"});
    list.push_back({"dog, duct tied: bound to albumin on day 4", "28.9 %", 24, 34, "%",
                    100 * bound.at(4 * day) / total.at(4 * day), Basis::fitted, delta,
                    "twice the printed standard error"});
    list.push_back({"dog, duct tied: bound to albumin on day 11", "42.5 %", 37.5, 47.5, "%",
                    100 * bound.at(11 * day) / total.at(11 * day), Basis::fitted, delta,
                    "twice the printed standard error"});
    const auto drained = follow(dog, block(dog, 1, 4), 12);
    const Line fall(drained, Analyte::bilirubin);
    list.push_back({"dog, drained on day 4: bilirubin halves in (next 6 d)", "4.1 d", 3, 8.5, "d",
                    6 / std::log2(fall.at(5 * day) / fall.at(11 * day)), Basis::fitted, delta,
                    "4.1 d here, 6.9 d after 11 d, albumin 8.2 d"});
}

void addCat(std::vector<Check>& list) {
    const auto c = follow(cat, block(cat, 1, 60), 60);
    const Line total(c, Analyte::bilirubin), alp(c, Analyte::ALP), ggt(c, Analyte::GGT);
    const Line direct(c, cistern::body::reading::conjugated);
    list.push_back({"cat, duct tied: bilirubin above 3 mg/dL on", "jaundice on day 5.3 (4 to 7)", 4,
                    7, "d", total.rises(3 * bilirubinMg) / day, Basis::fitted, cats,
                    "the printed span; tissues look yellow from 2.5 to 3"});
    list.push_back({"cat, duct tied: bilirubin in week 3", "23.1 (standard error 4.4)", 14, 32,
                    "mg/dL", mg(total, 21 * day), Basis::fitted, cats, "twice the standard error"});
    list.push_back({"cat, duct tied: direct share in week 3", "71.6 %", 60, 80, "%",
                    100 * direct.at(21 * day) / total.at(21 * day), Basis::fitted, cats,
                    "three standard errors"});
    list.push_back({"cat, duct tied: bilirubin on day 45 over day 21", "stable or falling", 0.6,
                    1.1, "1", total.at(45 * day) / total.at(21 * day), Basis::fitted, cats,
                    "a tenth is stable"});
    const double days[] = {2, 7, 18}, folds[] = {2, 4, 9};
    const double least[] = {1.3, 2.8, 4.5}, most[] = {3, 5.5, 11};
    for (int i = 0; i < 3; ++i)
        list.push_back({"cat, duct tied: ALP on day " + std::to_string(int(days[i])),
                        std::to_string(int(folds[i])) + " fold", least[i], most[i], "fold",
                        alp.fold(days[i] * day), Basis::fitted, center + "; " + cats77,
                        "a third to a half: days and folds are rounded"});
    list.push_back({"cat, duct tied: GGT on day 3", "2 fold", 1.3, 3.5, "fold", ggt.fold(3 * day),
                    Basis::fitted, center, "a third to three quarters, as ALP"});
    list.push_back({"cat, duct tied: GGT in week 1", "3 to 12 fold", 3, 12, "fold",
                    ggt.fold(7 * day), Basis::fitted, center, "the printed span"});
    list.push_back({"cat, duct tied: GGT in week 2", "up to 16 fold", 5, 16, "fold",
                    ggt.fold(14 * day), Basis::fitted, center, "'up to': a third is the least"});
    list.push_back({"cat, duct tied: ALT at its peak", "marked", 3, 15, "fold",
                    Line(c, Analyte::ALT).peakFold(), Basis::fitted, cats,
                    "marked is three fold or more"});
    list.push_back({"cat, duct tied: cholesterol in week 3", "marked rise", 1.5, 4, "fold",
                    Line(c, Analyte::cholesterol).fold(21 * day), Basis::independent, cats,
                    "half more is marked; the size is not at hand"});
    const auto part = follow(cat, block(cat, 0.6, 40), 40);
    list.push_back({"cat, duct 60 % blocked: ALP", "4 fold when partial", 2.5, 5.5, "fold",
                    Line(part, Analyte::ALP).peakFold(), Basis::independent, cats77,
                    "a third; the severity is our choice"});
    list.push_back({"cat, duct 60 % blocked: bilirubin", "no jaundice", 0, 1, "mg/dL",
                    Line(part, Analyte::bilirubin).peak() / bilirubinMg, Basis::independent, cats77,
                    "below what colors serum"});
}

void addCells(std::vector<Check>& list) {
    const auto c = follow(cat, insult("hepatic lipidosis", 0.92, 0, 30 * day, cat), 21);
    const double end = 21 * day;
    const Line alp(c, Analyte::ALP), ggt(c, Analyte::GGT);
    list.push_back({"cat, lipidosis: ALP fold over GGT fold", "ALP up, GGT not", 2, 20, "1",
                    alp.fold(end) / ggt.fold(end), Basis::fitted,
                    "J Feline Med Surg 2025, doi 10.1177/1098612X251335202 (93 cats)",
                    "twice is a pattern; another series has GGT high in 54 %"});
    list.push_back({"cat, lipidosis: ALP", "3 to 15 fold", 3, 15, "fold", alp.fold(end),
                    Basis::independent, lipidosis, "the printed span"});
    list.push_back({"cat, lipidosis: ALT", "2 to 5 fold", 2, 5, "fold",
                    Line(c, Analyte::ALT).fold(end), Basis::fitted, lipidosis, "the printed span"});
    list.push_back({"cat, lipidosis: GGT", "2 fold at most", 1, 2, "fold", ggt.fold(end),
                    Basis::fitted, lipidosis, "the printed span"});
    list.push_back({"cat, lipidosis: bilirubin", "3 to 20", 3, 20, "mg/dL",
                    mg(Line(c, Analyte::bilirubin), end), Basis::independent, lipidosis,
                    "the printed span; the severity is our choice"});

    // Four fifths of heme come from red cells, which live 115 d: this rate makes it five fold.
    const Windows hemolysis{{Drive::hemolysis, 0, 1e4, 4 / (0.8 * 115 * day)}};
    const auto sound = follow(dog, hemolysis, 10);
    const auto ill = follow(dog, hemolysis + Windows{{Drive::canalicularBlock, 0, 1e4, 0.8}}, 60);
    list.push_back({"dog, hemolysis of 5 fold: bilirubin", "3 to 4 at most; median peak 3.7", 0.3,
                    4.5, "mg/dL", Line(sound, Analyte::bilirubin).peak() / bilirubinMg,
                    Basis::fitted, "Stockham & Scott (from memory); Chapman et al., 81 dogs",
                    "half: how much heme is our choice"});
    list.push_back({"dog, the same with excretion at a fifth", "above 10", 10, 35, "mg/dL",
                    Line(ill, Analyte::bilirubin).peak() / bilirubinMg, Basis::independent,
                    "Stockham & Scott (from memory); Chapman et al.: up to 24",
                    "half beyond the highest seen",
                    "the reserve of excretion was raised so that hemolysis with a sound liver "
                    "stays mild; a fifth of it still carries much of the load"});
}

} // namespace

std::vector<Check> bile() {
    std::vector<Check> list;
    addDogEnzymes(list);
    addDogBilirubin(list);
    addCat(list);
    addCells(list);
    return list;
}

std::vector<Check> bileAcids() {
    std::vector<Check> list;
    const std::string shunts = "J Am Vet Med Assoc 1986;188:168 (11 shunt dogs)";
    const std::string meals = "22 healthy dogs before and after food, bjvras (scielo)";
    const auto fed =
        reference::course(reference::adult(dog), {meal(1, reference::known().dog)}, {0, 3, 5, 25});
    const auto acids = [](const cistern::body::Course& c, std::size_t look) {
        return c.at(look).level(Analyte::bileAcids);
    };
    list.push_back({"dog, 2 h after a meal: bile acids", "7.6 (2 h), 7.5", 5.3, 9.9, "umol/L",
                    acids(fed, 1), Basis::fitted, shunts + "; " + meals, "the list's 30 %"});
    list.push_back({"dog, 4 h after a meal: bile acids", "7.8", 5.5, 10.1, "umol/L", acids(fed, 2),
                    Basis::fitted, meals, "the list's 30 %"});
    list.push_back({"dog, 24 h after a meal: bile acids", "2.1 to 2.6 fasting", 2, 3, "umol/L",
                    acids(fed, 3), Basis::independent, shunts + "; " + meals,
                    "between the two, and a fifth"});

    const double end = 90 * day;
    const auto shunt = insult("portosystemic shunt", 0.93, 0, 200 * day, dog);
    const auto c =
        reference::course(reference::adult(dog), shunt + Windows{meal(end, reference::known().dog)},
                          {0, end, end + 2});
    list.push_back({"dog, shunt of 93 %: fasting bile acids", "79", 40, 120, "umol/L", acids(c, 1),
                    Basis::fitted, shunts, "half: the severity is our choice"});
    list.push_back({"dog, shunt of 93 %: bile acids 2 h after a meal", "177", 100, 250, "umol/L",
                    acids(c, 2), Basis::independent, shunts, "two fifths"});
    list.push_back({"dog, shunt of 93 %: ALT", "near normal", 17, 95, "U/L",
                    c.at(1).level(Analyte::ALT), Basis::independent, shunts, "the interval"});
    const std::string konstantinidis = "Konstantinidis et al., Vet Sci 2023;10:160";
    list.push_back({"dog, shunt of 93 %: urea", "low", 0.2, 0.8, "fold", fold(c, Analyte::urea),
                    Basis::independent, konstantinidis, "a fifth down is low"});
    list.push_back(
        {"dog, shunt of 93 %: albumin", "low in about half of the dogs", 0.6, 0.95, "fold",
         fold(c, Analyte::albumin), Basis::independent, konstantinidis,
         "a median dog near the limit of its interval; 22 g/L is the low end",
         "a liver without portal blood shrinks so far that synthesis falls below its reserve"});
    list.push_back({"dog, shunt of 93 %: cholesterol", "low in 57 % of the dogs", 0.3, 0.9, "fold",
                    fold(c, Analyte::cholesterol), Basis::independent, konstantinidis,
                    "a tenth down is the least"});

    const auto tied = follow(dog, insult("bile duct obstruction", 1, 0, 60 * day, dog), 14);
    list.push_back({"dog, duct tied: bile acids on day 14", "far above 25", 100, 500, "umol/L",
                    Line(tied, Analyte::bileAcids).at(14 * day), Basis::fitted,
                    "Center, Merck Veterinary Manual 2023", "hundreds: common practice"});
    return list;
}

} // namespace published
