#include "published/checks.h"

#include <cmath>

namespace published {

namespace {

const std::string aktas = "Aktas et al., J Vet Pharmacol Ther 1995;18:1";

/// A tiny depot of muscle homogenate put into tissue at once.
void addDepot(std::vector<Check>& list) {
    Individual animal = reference::adult(dog);
    animal.own.muscle.dyingCytosol = 0.2;
    const double grams = 0.01;
    const Windows depot{
        {Drive::muscleDeath, 0, 0.25, reference::deathRate(grams / animal.own.muscle.mass, 0.25)}};
    const auto c = reference::course(animal, depot, reference::every(0.25, 96));
    const Line ck(c, Analyte::CK), release(c, reference::releaseColumn(Pool::CK));
    const auto arrived = [&](double until) {
        double sum = 0;
        for (double hour = 0; hour < until; hour += 0.25)
            sum += 0.25 * (0.5 * (release.at(hour) + release.at(hour + 0.25)) - release.first());
        return sum;
    };
    const double content =
        animal.own.pool[static_cast<std::size_t>(Pool::CK)].muscleContent * grams;
    list.push_back({"dog, depot of muscle: CK peaks at", "2 h", 1.5, 6, "h", ck.peakHour(),
                    Basis::fitted, aktas, "one entry rate alone gives 5.6 h; a depot takes time"});
    list.push_back({"dog, depot of muscle: CK halves in", "6.5 h", 5.5, 7.5, "h",
                    -20 / std::log2(ck.left(30, 50)), Basis::consequence, aktas, "an hour"});
    list.push_back({"dog, depot of muscle: absorbed by 24 h", "most (92 % at 6.5 h)", 85, 97, "%",
                    100 * arrived(24) / arrived(96), Basis::consequence, aktas,
                    "half-life of 6.5 h, give or take one"});
    list.push_back({"dog, depot of muscle: reaches the blood", "65 %", 55, 75, "%",
                    100 * arrived(96) / content, Basis::consequence, aktas, "a seventh"});
    // Straight into the blood: no tissue fluid between.
    animal.own.muscle.directShare = 1;
    const auto straight = reference::course(animal, depot, reference::every(0.25, 24));
    list.push_back({"dog, CK into a vein: halves in", "2.5 h", 2, 3, "h",
                    -5 / std::log2(Line(straight, Analyte::CK).left(8, 13)), Basis::consequence,
                    aktas, "a fifth"});
}

void addInjury(std::vector<Check>& list) {
    const auto hit = [](Kind kind, double grams, double hours, double days) {
        return follow(kind, insult("muscle necrosis", grams, 0, hours, kind), days);
    };
    const auto small = hit(dog, 0.1, 4, 5); // 1 g in a dog of 10 kg
    const Line ck(small, Analyte::CK);
    double area = 0;
    for (double hour = 1; hour <= 120; ++hour) area += ck.at(hour) - ck.first();
    const std::string balance = aktas + " (clearance, recovery); 2500 U/g";
    list.push_back({"dog of 10 kg, 1 g of muscle: area of CK", "5400 U h/L", 2700, 10800, "U h/L",
                    area, Basis::consequence, balance, "half to twice: content is a prior"});
    list.push_back({"dog of 10 kg, 1 g of muscle: CK rises by", "320 to 690 U/L", 160, 1380, "U/L",
                    ck.peak() - ck.first(), Basis::independent, balance, "half to twice"});
    list.push_back({"dog, 1 g of muscle: CK peaks at", "4 to 12 h", 4, 12, "h", ck.peakHour(),
                    Basis::fitted, "Clinical texts (from memory); 6 to 12 h: Vetlexicon, CK",
                    "the printed span"});
    list.push_back({"dog, injection into muscle: CK", "2 to 10 fold", 2, 10, "fold", ck.peakFold(),
                    Basis::independent, "Clinical texts (from memory)",
                    "the printed span; 0.1 g/kg is our choice"});
    list.push_back({"dog, injection into muscle: AST", "2 fold at most", 1, 2, "fold",
                    Line(small, Analyte::AST).peakFold(), Basis::independent,
                    "Clinical texts (from memory)", "the printed span"});
    const auto large = hit(dog, 2, 6, 10);
    const Line bigCk(large, Analyte::CK), ast(large, Analyte::AST), alt(large, Analyte::ALT);
    const std::string valentine = "Valentine et al., J Vet Intern Med 1990;4:140";
    list.push_back({"dog, 2 g/kg of muscle: CK fold over AST fold", "CK far above AST", 5, 1000,
                    "1", bigCk.peakFold() / ast.peakFold(), Basis::independent, valentine,
                    "a pattern"});
    list.push_back({"dog, 2 g/kg of muscle: AST fold over ALT fold", "AST above ALT", 1.5, 1000,
                    "1", ast.peakFold() / alt.peakFold(), Basis::independent, valentine,
                    "a pattern"});
    list.push_back({"dog, 2 g/kg of muscle: ALT", "mildly up", 1.1, 5, "fold", alt.peakFold(),
                    Basis::independent, valentine, "a pattern: up, less than five fold"});
    const std::string texts = "Univ. of Saskatchewan, muscle; Vetlexicon, CK";
    const double calm = bigCk.returns(250);
    list.push_back({"dog, 2 g/kg of muscle: CK below 250 U/L on", "2 to 3 d", 1.5, 3.5, "d",
                    calm / day, Basis::independent, texts,
                    "half a day; the severity is our choice"});
    list.push_back({"dog, 2 g/kg of muscle: AST at that hour", "still falling", 1.3, 50, "fold",
                    ast.fold(calm), Basis::independent, texts, "a third above its own level"});
    const auto tom = hit(cat, 2, 6, 10);
    const Line catCk(tom, Analyte::CK);
    list.push_back({"cat, 2 g/kg of muscle: CK below 527 U/L on", "2 to 3 d", 1.5, 3.5, "d",
                    catCk.returns(527) / day, Basis::independent, texts,
                    "half a day; limit of Engelking"});
    list.push_back({"cat, 2 g/kg of muscle: CK peaks at", "6 to 12 h", 4, 12, "h", catCk.peakHour(),
                    Basis::independent, texts, "as in the dog, from 4 h on"});
}

} // namespace

std::vector<Check> muscle() {
    std::vector<Check> list;
    addDepot(list);
    addInjury(list);
    return list;
}

} // namespace published
