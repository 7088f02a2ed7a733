#include "published/checks.h"

#include <cstdio>

namespace published {

namespace {

const std::string merck = "Center, Merck Veterinary Manual, other biochemical measures, 2023";
const std::string dixon = "Half-lives of homologous albumins (iodine-131), about 1953: 8.2 d";

/// A liver of which so much is left for good.
Individual halted(Kind kind) {
    Individual animal = reference::adult(kind);
    animal.own.liver.regrowth = 0;
    return animal;
}
Windows kill(double share) {
    return {{Drive::liverDeath, 0, 0.25, reference::deathRate(share, 0.25)}};
}
double restingFold(Analyte analyte, double livingShare) {
    const auto c = reference::course(halted(dog), kill(1 - livingShare), {0, 400 * day});
    return c.at(1).level(analyte) / c.at(0).level(analyte);
}

void addStop(std::vector<Check>& list) {
    const auto c = reference::course(halted(dog), kill(0.9999), reference::every(1, 20 * day));
    const Line albumin(c, Analyte::albumin);
    const double days[] = {1, 7, 14}, expected[] = {92, 55, 31};
    for (int i = 0; i < 3; ++i)
        list.push_back(
            {"dog, synthesis stopped: albumin left after " + std::to_string(int(days[i])) + " d",
             std::to_string(int(expected[i])) + " %", expected[i] - 5, expected[i] + 5, "%",
             100 * albumin.fold(days[i] * day), Basis::fitted, dixon,
             "the list's 5 points of start: pools take hours to level"});
    double hour = 0;
    while (albumin.fold(hour) > 2.0 / 3.3) ++hour;
    list.push_back({"dog, synthesis stopped: albumin from 33 to 20 g/L in", "5.8 d", 5.2, 6.4, "d",
                    hour / day, Basis::fitted, merck + " (half-life 8 d)", "a tenth"});
    list.push_back({"dog, synthesis stopped: albumin left after 3 d", "77 % or more", 77, 100, "%",
                    100 * albumin.fold(3 * day), Basis::fitted, merck + " (half-life 8 d)",
                    "the printed bound"});
    list.push_back({"dog, synthesis stopped: albumin falls on the first day by", "8.5 % at most", 0,
                    9.5, "%", 100 - 100 * albumin.fold(day), Basis::fitted, dixon,
                    "a point: exchange with tissue takes hours"});
}

void addReserve(std::vector<Check>& list) {
    const std::string reserve = merck + " (synthesis runs at a third of its most)";
    const double left[] = {0.35, 0.26, 0.165}, expected[] = {1, 0.79, 0.5};
    const double least[] = {0.95, 0.74, 0.45}, most[] = {1, 0.84, 0.55};
    for (int i = 0; i < 3; ++i) {
        char share[64];
        std::snprintf(share, sizeof share, "dog, %.3g of the liver left: albumin at rest", left[i]);
        char told[32];
        std::snprintf(told, sizeof told, "%.2g fold", expected[i]);
        list.push_back({share, told, least[i], most[i], "fold",
                        restingFold(Analyte::albumin, left[i]), Basis::independent, reserve,
                        i == 0 ? "normal: within a twentieth" : "five points of fold"});
    }
    const std::string duncan = "Duncan & Prasse, Veterinary Laboratory Medicine (from memory)";
    const auto lost = [](Analyte analyte, double fold) { // share lost where the level is reached
        double low = 0.02, high = 1;
        for (int i = 0; i < 30; ++i) {
            const double middle = 0.5 * (low + high);
            (restingFold(analyte, middle) < fold ? low : high) = middle;
        }
        return 100 * (1 - high);
    };
    const auto& own = reference::known().dog;
    list.push_back({"dog: liver lost when albumin leaves its interval (32 g/L)", "60 to 80 %", 60,
                    80, "%", lost(Analyte::albumin, 32 / own.protein.albumin), Basis::independent,
                    duncan, "the printed span"});
    list.push_back({"dog: liver lost when urea leaves its interval (10 mg/dL)", "70 % (60 to 80)",
                    60, 80, "%", lost(Analyte::urea, 10 * ureaMg / own.kidney.urea),
                    Basis::independent, duncan, "the printed span",
                    "urea production runs on an eighth of the liver; the half-point is assumed"});
    list.push_back({"dog: liver lost when fasting glucose leaves its interval (3.7 mmol/L)",
                    "75 to 80 % or more", 70, 95, "%",
                    lost(Analyte::glucose, 3.7 / own.sugar.glucose), Basis::fitted, duncan,
                    "five points below the printed bound"});
}

void addSugar(std::vector<Check>& list) {
    const std::string mann = "Mann & Magath 1921 to 1924 (livers of dogs removed; from memory)";
    for (Kind kind : {dog, cat}) {
        const auto c = reference::course(halted(kind), kill(0.9999), reference::every(0.25, 24));
        double hour = 0;
        while (hour < 24 && Line(c, Analyte::glucose).at(hour) > 2.2) hour += 0.25;
        list.push_back({who(kind, "liver removed: glucose below 40 mg/dL after"), "3 to 8 h", 3, 8,
                        "h", hour, Basis::fitted, mann, "the printed span"});
    }
}

} // namespace

std::vector<Check> protein() {
    std::vector<Check> list;
    addStop(list);
    addReserve(list);
    addSugar(list);
    return list;
}

} // namespace published
