#include "published/checks.h"

#include <algorithm>

namespace published {

namespace {

const std::string pooled = "Canine Med Genet 2022, hypoadrenocorticism, table 2";
const std::string many = "225 dogs with hypoadrenocorticism, J Am Vet Med Assoc 1996";
const std::string excess = "115 dogs with hyperadrenocorticism, Pesq Vet Bras 2019";
const std::string feldman = "Feldman & Nelson (from memory)";
const std::string graves = "Graves et al., Am J Vet Res 1994;55:1745";
const std::string guse = "Guse et al., J Feline Med Surg 2024";
const std::string rand_ = "Rand & Reeve-Johnson, WSAVA 2017";

void addLack(std::vector<Check>& list) {
    const auto c = reference::course(
        reference::adult(dog), insult("hypoadrenocorticism", 0.999, 0, day, dog), {0, 30 * day});
    const auto at = [&](Analyte analyte) { return c.at(1).level(analyte); };
    list.push_back({"dog, no adrenal cortex: sodium", "135", 132, 139, "mmol/L", at(Analyte::Na),
                    Basis::fitted, many + "; " + pooled, "4: low in 183 of 225"});
    list.push_back({"dog, no adrenal cortex: potassium", "6.5, up to 11", 5.8, 8, "mmol/L",
                    at(Analyte::K), Basis::fitted, many, "most stay below 8"});
    list.push_back({"dog, no adrenal cortex: sodium over potassium", "below 27", 12, 27, "1",
                    at(Analyte::Na) / at(Analyte::K), Basis::fitted,
                    "Sodium over potassium, 76 dogs, J Vet Intern Med 2007", bound});
    list.push_back({"dog, no adrenal cortex: creatinine", "high in 66 %", 1.3, 4, "mg/dL",
                    at(Analyte::creatinine) / creatinineMg, Basis::independent, pooled,
                    "the median dog is above the interval"});
    list.push_back({"dog, no adrenal cortex: urea nitrogen", "high in 82 %", 25, 120, "mg/dL",
                    at(Analyte::urea) / ureaMg, Basis::fitted, pooled, interval});
    list.push_back({"dog, no adrenal cortex: urine gravity", "below 1.030 in 58 %", 1.008, 1.030,
                    "1", at(Analyte::USG), Basis::fitted, many, bound});
    list.push_back({"dog, no adrenal cortex: phosphate", "high in 58 %", 5.4, 12, "mg/dL",
                    at(Analyte::P) / 0.3229, Basis::fitted, pooled,
                    "the median dog is above the interval"});
    list.push_back({"dog, no adrenal cortex: chloride", "low in 94 of 225", 90, 114, "mmol/L",
                    at(Analyte::Cl), Basis::independent, many,
                    "not high; the median dog is near the low end"});
    list.push_back({"dog, no adrenal cortex: calcium over healthy", "high in 29 %", 1, 1.15, "fold",
                    fold(c, Analyte::Ca), Basis::independent, pooled,
                    "up, not far: a third leave the interval"});
    list.push_back({"dog, no adrenal cortex: glucose", "low in 16 to 31 %", 3.7, 5, "mmol/L",
                    at(Analyte::glucose), Basis::independent, pooled,
                    "down, the median dog inside its interval"});
    list.push_back({"dog, no adrenal cortex: cortisol", "below 55", 0, 55, "nmol/L",
                    at(Analyte::cortisol), Basis::independent, feldman,
                    "2 ug/dL, the usual bound"});
}

void addExcess(std::vector<Check>& list) {
    const auto c = reference::course(
        reference::adult(dog), insult("hyperadrenocorticism", 1, 0, 90 * day, dog), {0, 90 * day});
    const auto at = [&](Analyte analyte) { return c.at(1).level(analyte); };
    list.push_back({"dog, own cortisol in excess: ALP", "high in 82 %", 115, 3000, "U/L",
                    at(Analyte::ALP), Basis::independent, excess,
                    "the median dog is above the interval"});
    list.push_back({"dog, own cortisol in excess: ALT", "high in 63 %", 100, 400, "U/L",
                    at(Analyte::ALT), Basis::fitted, excess,
                    "the median dog is above the interval"});
    list.push_back({"dog, own cortisol in excess: cholesterol over healthy", "high in 66 %", 1.1,
                    2.5, "fold", fold(c, Analyte::cholesterol), Basis::fitted, excess,
                    "a tenth up at the least"});
    list.push_back({"dog, own cortisol in excess: triglycerides over healthy", "high in 55 %", 1.2,
                    3, "fold", fold(c, Analyte::triglycerides), Basis::fitted, excess,
                    "a fifth up at the least"});
    list.push_back({"dog, own cortisol in excess: urine gravity", "1.012 or less in 28 %", 1.004,
                    1.020, "1", at(Analyte::USG), Basis::fitted, excess,
                    "dilute, and a dose near the upper end"});
    list.push_back({"dog, own cortisol in excess: protein over creatinine in urine",
                    "protein in 50 %", 0.2, 2, "1", at(Analyte::UPC), Basis::fitted, excess,
                    "half of them: between borderline and high"});
    list.push_back({"dog, own cortisol in excess: creatinine", "low-normal", 0.5, 0.94, "mg/dL",
                    at(Analyte::creatinine) / creatinineMg, Basis::fitted, feldman,
                    "below the healthy median"});
    list.push_back({"dog, own cortisol in excess: urea nitrogen", "low-normal", 8, 16, "mg/dL",
                    at(Analyte::urea) / ureaMg, Basis::independent, feldman,
                    "below the healthy median"});
    list.push_back({"dog, own cortisol in excess: glucose", "mildly high", 5.2, 8, "mmol/L",
                    at(Analyte::glucose), Basis::fitted, feldman, "up, no diabetes"});
    list.push_back({"dog, own cortisol in excess: lymphocytes", "a stress leukogram", 0.3, 1.5,
                    "10*9/L", at(Analyte::lymphocytes), Basis::independent, feldman,
                    "half of health to half above the low end, 1.0"});
}

void addThyroid(std::vector<Check>& list) {
    for (Kind kind : {dog, cat}) {
        const auto low =
            reference::course(reference::adult(kind),
                              insult("hypothyroidism", 0.2, 0, 120 * day, kind), {0, 120 * day});
        list.push_back({who(kind, "fifth of the thyroxine: cholesterol over healthy"), "up", 1.2, 4,
                        "fold", fold(low, Analyte::cholesterol), Basis::independent, feldman,
                        "a direction"});
        list.push_back({who(kind, "fifth of the thyroxine: filtration over healthy"), "down", 0.5,
                        0.9, "fold",
                        low.at(1).value[cistern::body::reading::gfr] /
                            low.at(0).value[cistern::body::reading::gfr],
                        Basis::independent, feldman, "a direction; by half at most"});
    }
    // Thyroxine of 120 nmol/L, then 12; half of the nephrons lost years before.
    const double end = 120 * day, treated = end + 30 * day;
    const auto c = reference::course(reference::adult(cat),
                                     insult("nephron loss", 0.5, 0, day, cat) +
                                         insult("hyperthyroidism", 120.0 / 27, 0, end, cat) +
                                         insult("hypothyroidism", 12.0 / 27, end, treated, cat),
                                     {0, end, treated});
    const auto at = [&](Analyte analyte, std::size_t look) { return c.at(look).level(analyte); };
    const double told[][2] = {{2.51, 1.40}, {1.26, 2.05}, {26.6, 34.9}};
    for (std::size_t look : {1u, 2u}) {
        const std::string state = look == 1 ? "hyperthyroid: " : "30 d after treatment: ";
        const auto expect = [&](int i) { return told[i][look - 1]; };
        const auto say = [&](int i) {
            std::string text = std::to_string(expect(i));
            return text.substr(0, i == 2 ? 4 : 4);
        };
        list.push_back({"cat, " + state + "filtration", say(0), 0.8 * expect(0), 1.2 * expect(0),
                        "mL/min/kg", c.at(look).value[cistern::body::reading::gfr], Basis::fitted,
                        graves, "a fifth: the printed spread is 0.7 and 0.4"});
        list.push_back({"cat, " + state + "creatinine", say(1), 0.8 * expect(1), 1.2 * expect(1),
                        "mg/dL", at(Analyte::creatinine, look) / creatinineMg, Basis::independent,
                        graves, "a fifth, as filtration"});
        list.push_back({"cat, " + state + "urea nitrogen", say(2), 0.8 * expect(2), 1.2 * expect(2),
                        "mg/dL", at(Analyte::urea, look) / ureaMg, Basis::fitted, graves,
                        "a fifth, as filtration"});
    }
    const auto high = reference::course(
        reference::adult(cat), insult("hyperthyroidism", 120.0 / 27, 0, end, cat), {0, end});
    list.push_back({"cat, hyperthyroid: ALT over healthy", "high in 75 to 85 %, below 4 to 5 fold",
                    1.5, 5, "fold", fold(high, Analyte::ALT), Basis::fitted,
                    "Peterson et al. 1983 (from memory)", bound});
    list.push_back({"cat, hyperthyroid: ALP over healthy", "high in 40 to 75 %", 1.2, 4, "fold",
                    fold(high, Analyte::ALP), Basis::fitted, "Peterson et al. 1983 (from memory)",
                    "a fifth up at the least"});
    list.push_back({"cat, hyperthyroid: phosphate over healthy", "up about 20 %", 1.1, 1.3, "fold",
                    fold(high, Analyte::P), Basis::fitted, feldman, "half either way"});
}

void addSugar(std::vector<Check>& list) {
    for (Kind kind : {dog, cat}) {
        const auto c =
            reference::course(reference::adult(kind),
                              insult("diabetes mellitus", 1, 0, 60 * day, kind), {0, 60 * day});
        const double glucose = c.at(1).level(Analyte::glucose);
        if (kind == cat)
            list.push_back({"cat, no insulin: glucose", "23.7", 17.8, 29.6, "mmol/L", glucose,
                            Basis::fitted, guse, "a quarter: how much insulin is left is ours"});
        else
            list.push_back({"dog, no insulin: glucose", "above 11.1, most 15 to 30", 11.1, 30,
                            "mmol/L", glucose, Basis::fitted, feldman, bound});
        list.push_back({who(kind, "no insulin: sodium for each mmol/L of glucose"), "-0.29", -0.31,
                        -0.27, "1",
                        (c.at(1).level(Analyte::Na) - c.at(0).level(Analyte::Na)) /
                            (glucose - c.at(0).level(Analyte::glucose)),
                        Basis::consequence, "Katz 1973 (from memory)", "rounding"});
        list.push_back({who(kind, "no insulin: total CO2"), "low: ketones", 4, 15, "mmol/L",
                        c.at(1).level(Analyte::tCO2), Basis::independent, feldman,
                        "a mmol/L above the low end of 14"});
        if (kind == dog) continue;
        list.push_back({"cat, no insulin: cholesterol over healthy", "7.46 over 5.44: 1.37", 1.23,
                        1.51, "fold", fold(c, Analyte::cholesterol), Basis::fitted, guse,
                        "a tenth"});
        list.push_back({"cat, no insulin: triglycerides over healthy", "1.44 over 0.78: 1.85", 1.57,
                        2.12, "fold", fold(c, Analyte::triglycerides), Basis::fitted, guse,
                        "15 %"});
        list.push_back({"cat, no insulin: ALP over healthy", "66 over 35: 1.9", 1.4, 2.4, "fold",
                        fold(c, Analyte::ALP), Basis::fitted, guse, "a quarter"});
    }
    for (Kind kind : {dog, cat}) {
        const auto fright = [&](double severity, double hours) {
            const auto c = reference::course(reference::adult(kind),
                                             insult("fright", severity, 0, hours, kind),
                                             reference::every(0.25, 9));
            const Line glucose(c, Analyte::glucose);
            return std::pair{glucose.peak() - glucose.first(),
                             glucose.at(hours + 6) - glucose.first()};
        };
        if (kind == dog) {
            list.push_back({"dog, greatest fright of an hour: glucose rises by",
                            "dogs hardly answer", 0, 1, "mmol/L", fright(1, 1).first,
                            Basis::independent, rand_, "a fifth of health"});
            continue;
        }
        // How strong and how long was chosen after the first results: the source tells neither.
        list.push_back({"cat, fright of 40 % for two hours: glucose rises by", "4 on arrival", 2, 6,
                        "mmol/L", fright(0.4, 2).first, Basis::fitted, rand_, "half either way"});
        list.push_back({"cat, greatest fright of an hour: glucose rises by", "up to 10", 5, 11,
                        "mmol/L", fright(1, 1).first, Basis::fitted, rand_, "from half of it on"});
        list.push_back({"cat, 6 h after the fright: glucose above healthy", "back after 6 h", -0.5,
                        1, "mmol/L", fright(1, 1).second, Basis::fitted,
                        "Koomgun et al., J Feline Med Surg 2025", "twice the change within a cat"});
    }
}

} // namespace

std::vector<Check> hormones() {
    std::vector<Check> list;
    addLack(list);
    addExcess(list);
    addThyroid(list);
    return list;
}

std::vector<Check> sugar() {
    std::vector<Check> list;
    addSugar(list);
    return list;
}

} // namespace published
