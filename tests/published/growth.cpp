#include "published/checks.h"

namespace published {

namespace {
const double month = 30.4375 * day;
} // namespace

std::vector<Check> growth() {
    std::vector<Check> list;
    const std::string kam = "Kam et al., Hepatology 1987;7:362 (small grafts)";
    const auto loss = follow(dog, {{Drive::liverDeath, 0, 1, reference::deathRate(0.7, 1)}}, 60);
    const Line mass(loss, cistern::body::reading::work + static_cast<int>(Tissue::liver));
    double full = 2;
    while (mass.at(full) < 0.85) ++full;
    list.push_back({"dog, 70 % of the liver lost: 85 % again on", "2 to 6 weeks", 14, 42, "d",
                    full / day, Basis::fitted, kam + "; surgical texts (from memory)",
                    "the printed span"});
    list.push_back({"dog, 70 % of the liver lost: mass on day 6", "50 to 60 %", 50, 60, "%",
                    100 * mass.at(6 * day), Basis::independent, "Surgical texts (from memory)",
                    "the printed span"});

    const std::string closure = "Kummeling et al., J Vet Intern Med 2010 (computed tomography)";
    const double closed = 400 * day;
    const auto shunt = reference::course(reference::adult(dog),
                                         insult("portosystemic shunt", 0.93, 0, closed, dog),
                                         {closed + 0.25, closed + 8 * day, closed + 60 * day});
    const auto size = [&](std::size_t look) { return shunt.at(look).work(Tissue::liver); };
    list.push_back({"dog, shunt closed: liver after 2 months", "1.58 fold", 1.4, 1.8, "fold",
                    size(2) / size(0), Basis::fitted, closure, "an eighth: few dogs"});
    list.push_back({"dog, shunt closed: share of that growth by day 8", "most", 0.5, 1, "1",
                    (size(1) - size(0)) / (size(2) - size(0)), Basis::independent, closure,
                    "most is half or more"});

    const auto adult = reference::adult(dog);
    const double own = setPoint(adult, Analyte::ALP);
    const double ages[] = {1, 6, 14}, least[] = {2, 1.5, 1}, most[] = {6, 2.5, 1.2};
    const char* told[] = {"4.7 fold", "about 2 fold", "adult by 12 to 15 months"};
    const char* reason[] = {"a study of few litters: to half and a quarter beyond", "a quarter",
                            "a fifth"};
    for (int i = 0; i < 3; ++i) {
        Individual pup = adult;
        pup.who.age = ages[i] * month;
        list.push_back(
            {"dog, " + std::to_string(int(ages[i])) + (i == 0 ? " month" : " months") +
                 " of age: ALP over the adult's",
             told[i], least[i], most[i], "fold",
             reference::course(pup, {}, {0}).at(0).level(Analyte::ALP) / own, Basis::fitted,
             i == 0 ? "Jpn J Vet Sci 1988;50:769" : "WikiVet, Alkaline phosphatase", reason[i]});
    }
    Individual pup = adult;
    pup.who.age = month;
    list.push_back(
        {"dog, 1 month of age: ALT over the adult's", "unchanged", 0.99, 1.01, "fold",
         reference::course(pup, {}, {0}).at(0).level(Analyte::ALT) / setPoint(adult, Analyte::ALT),
         Basis::independent, "From memory", "no change, to a hundredth"});
    return list;
}

} // namespace published
