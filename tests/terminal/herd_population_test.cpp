// A healthy herd as a population: its limits, its correlations, its young and its old.
#include "program.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

using namespace cistern::test;

namespace {

/// What a herd prints of one limit of one analyte.
using Distances = std::map<std::string, std::string>;

/// "ALT low", "ALT high" ... of a measured herd, as printed: a number, "-", or of a decision limit
/// the words.
Distances distances(const std::string& species, const std::vector<std::string>& more) {
    std::vector<std::string> arguments{"herd", species, "--measured"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Outcome outcome = program(arguments);
    REQUIRE(outcome.code == 0);
    Distances found;
    bool body = false;
    for (const std::string& line : lines(outcome.out)) {
        if (body && line.empty()) break;
        if (body) {
            std::istringstream in(line);
            std::vector<std::string> cells;
            for (std::string cell; in >> cell;) cells.push_back(cell);
            REQUIRE(cells.size() >= 8); // name, median, low - high, low - high, two distances
            found[cells[0] + " low"] = cells[cells.size() - 2];
            found[cells[0] + " high"] = cells.back();
        }
        body = body || line.starts_with("---");
    }
    return found;
}

/// A limit that lies further off than the others may, how far, and why.
struct Exception {
    const char* species;
    const char* limit;
    double off;
    const char* reason;
};

constexpr Exception exceptions[]{
    {"dog", "MCH low", 0.15,
     "the middle of the same table's cell volume and concentration makes 24.3 pg, not 23.5"},
    {"cat", "RBC low", 0.22,
     "the middle of the same table's hematocrit and cell volume makes 7.9 10*12/L, not 7.1"},
};

double meanOf(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
    const double meanA = meanOf(a), meanB = meanOf(b);
    double ab = 0, aa = 0, bb = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        ab += (a[i] - meanA) * (b[i] - meanB);
        aa += (a[i] - meanA) * (a[i] - meanA);
        bb += (b[i] - meanB) * (b[i] - meanB);
    }
    return ab / std::sqrt(aa * bb);
}

using Rows = std::vector<std::vector<std::string>>;

Rows truthOf(const char* species, const char* animals, const std::string& analytes,
             const char* age = nullptr) {
    std::vector<std::string> arguments{"herd",       species,  "--animals", animals,
                                       "--analytes", analytes, "--format",  "csv"};
    if (age) arguments.insert(arguments.end(), {"--age", age});
    const Outcome outcome = program(arguments);
    REQUIRE(outcome.code == 0);
    return csv(outcome.out);
}

} // namespace

TEST_CASE("every limit of a healthy herd lies near the published one, but for those named",
          "[terminal]") {
    // A tenth of the width: published limits are themselves known no better (90 % intervals of the
    // limits of Jeffery 2021, 190 dogs: albumin 0.1 to 0.4 widths, ALT 0.8). The 2.5 percentile of
    // 8000 has a standard error of 0.008 widths where the spread is normal, and the upper one of at
    // most 0.02, of CRP 0.035, where it is log-normal.
    constexpr double near = 0.1, chance = 0.035;
    for (const std::string species : {"dog", "cat"}) {
        const Distances found = distances(species, {"--animals", "8000"});
        CHECK(found.size() > 2 * 45); // a panel whole
        for (const auto& entry : found) {
            const auto &limit = entry.first, &off = entry.second;
            INFO(species << " " << limit << ": " << off << " widths");
            if (off == "-" || off == "decision" || off == "limit") continue;
            const auto named = std::find_if(
                std::begin(exceptions), std::end(exceptions),
                [&](const Exception& one) { return species == one.species && limit == one.limit; });
            if (named == std::end(exceptions)) {
                CHECK(std::stod(off) <= near);
            } else {
                INFO("named: " << named->reason);
                CHECK(std::stod(off) == Approx(named->off).margin(chance));
            }
        }
    }
}

TEST_CASE("a decision limit is told as one, and no distance is counted from it", "[terminal]") {
    for (const std::string species : {"dog", "cat"}) {
        const Distances found =
            distances(species, {"--animals", "40", "--analytes", "UPC,toxic,ALT"});
        CHECK(found.at("UPC low") == "decision");
        CHECK(found.at("UPC high") == "limit");
        CHECK(found.at("toxic high") == "limit");
        CHECK(found.at("ALT high") != "limit");
    }
}

TEST_CASE("levels of a healthy herd go together as they do in animals", "[terminal]") {
    // Red cells: what is counted, filled and spun is one mass (common practice: hemoglobin is a
    // third of the hematocrit); loosest in the cat, whose cell volume spreads over 39 to 55 fL.
    // Serum: weak where two organs share one filtration (common practice), close where charges must
    // balance; calcium weakly, though albumin binds 35 % of it (Calcium chapter), which alone would
    // make 0.4 to 0.5. Of 2000 animals a correlation has a standard error of at most 0.022.
    struct Pair {
        const char *first, *second;
        double least, most;
    };
    constexpr Pair pairs[]{{"Hb[g/dL]", "Hct[%]", 0.85, 1},
                           {"RBC[10*6/uL]", "Hct[%]", 0.7, 1},
                           {"RBC[10*6/uL]", "Hb[g/dL]", 0.8, 1},
                           {"PCV[%]", "Hct[%]", 0.999, 1},
                           {"urea[mg/dL]", "creatinine[mg/dL]", 0.15, 0.45},
                           {"Na[mmol/L]", "Cl[mmol/L]", 0.6, 0.9},
                           {"albumin[g/dL]", "Ca[mg/dL]", 0.15, 0.5},
                           {"TP[g/dL]", "albumin[g/dL]", 0.3, 0.7},
                           {"TP[g/dL]", "globulin[g/dL]", 0.75, 0.95},
                           {"albumin[g/dL]", "globulin[g/dL]", -0.3, 0.1},
                           {"ALT[U/L]", "creatinine[mg/dL]", -0.1, 0.1}};
    for (const char* species : {"dog", "cat"}) {
        const Rows herd = truthOf(
            species, "2000", "ALT,Hb,Hct,RBC,PCV,urea,creatinine,Na,Cl,albumin,globulin,Ca,TP");
        for (const Pair& pair : pairs) {
            const double r = correlation(columnOf(herd, std::string("true:") + pair.first),
                                         columnOf(herd, std::string("true:") + pair.second));
            INFO(species << " " << pair.first << " with " << pair.second << ": " << r);
            CHECK(r > pair.least);
            CHECK(r < pair.most + 1e-9);
        }
    }
}

namespace {

/// How many times as high the mean level is at one age as at five years, by column, of the same 400
/// animals: chance drops out but for what age does to the spread.
class Aged {
public:
    Aged(const char* species, const char* age)
        : then_(truthOf(species, "400", all, age)), grown_(truthOf(species, "400", all, "5 y")) {}
    double operator()(const std::string& column) const {
        return meanOf(columnOf(then_, "true:" + column)) /
               meanOf(columnOf(grown_, "true:" + column));
    }

private:
    static constexpr const char* all =
        "ALP,P,K,T4,albumin,globulin,protein,creatinine,lymphocytes,PCV";
    Rows then_, grown_;
};

} // namespace

TEST_CASE("pups of eight weeks grow bone and have little protein and few red cells", "[terminal]") {
    const Aged times("dog", "8 wk");
    const double alp = times("ALP[U/L]");
    CHECK(alp > 2);   // about twice in the young: WikiVet ALP
    CHECK(alp < 4.7); // at one month: Puppy ALP 1988
    const double p = times("P[mg/dL]");
    CHECK(p > 1.5); // high, falling through the first year: Roertveit 2015; size from memory
    CHECK(p < 2.2);
    // WSU puppies: albumin 0.81 of the adult's; a twentieth for their age, which is not stated.
    CHECK(times("albumin[g/dL]") == Approx(0.81).margin(0.06));
    CHECK(times("globulin[g/dL]") < 0.75);      // Roertveit 2015; from memory
    CHECK(times("creatinine[mg/dL]") < 0.7);    // Rosset 2012; from memory
    CHECK(times("lymphocytes[10*3/uL]") > 1.2); // Schalm; from memory
    // Lund 2000: 26.8 % on days 28 to 33, over a middle of 44.7 % in the grown.
    CHECK(Aged("dog", "30 d")("PCV[%]") == Approx(26.8 / 44.7).margin(0.02));
    // Lund 2000: red cells of days 50 to 58, 3.73 to 6.25 10*12/L; chance as above for 2000.
    const Distances found =
        distances("dog", {"--age", "54 d", "--animals", "2000", "--analytes", "RBC"});
    CHECK(std::stod(found.at("RBC low")) <= 0.15);
    CHECK(std::stod(found.at("RBC high")) <= 0.15);
}

TEST_CASE("kittens of sixty days have the blood that was counted in kittens", "[terminal]") {
    // Meyers-Wallen 1984: hematocrit 33.3 %, red cells 6.95 10*12/L, hemoglobin 9.8 g/dL, white
    // cells 20 to 24 10*9/L at 8 to 14 weeks. A twentieth for the set points of another cohort.
    const Rows herd = truthOf("cat", "400", "Hct,RBC,Hb,WBC", "60 d");
    const auto mean = [&](const char* column) { return meanOf(columnOf(herd, column)); };
    CHECK(mean("true:Hct[%]") == Approx(33.3).epsilon(0.05));
    CHECK(mean("true:RBC[10*6/uL]") == Approx(6.95).epsilon(0.05));
    CHECK(mean("true:Hb[g/dL]") == Approx(9.8).epsilon(0.05));
    CHECK(mean("true:WBC[10*3/uL]") == Approx(22).epsilon(0.15));
    const Aged times("cat", "60 d");
    CHECK(times("ALP[U/L]") > 2);        // as in the dog: no feline course was found
    CHECK(times("protein[g/dL]") < 0.8); // Cats of one colony 1992
    CHECK(times("P[mg/dL]") > 1.5);      // Cats of one colony 1992
}

TEST_CASE("old dogs have less albumin, more globulin and a little more potassium", "[terminal]") {
    // Directions: Lowseth 1990, beagles; sizes from memory, so each is held to a tenth or so.
    const Aged times("dog", "12 y");
    const auto within = [](double fold, double least, double most) {
        CHECK(fold > least);
        CHECK(fold < most);
    };
    within(times("albumin[g/dL]"), 0.9, 0.99);
    within(times("globulin[g/dL]"), 1.03, 1.2);
    within(times("K[mmol/L]"), 1.01, 1.1);
    within(times("creatinine[mg/dL]"), 0.85, 0.99);
    within(times("T4[ug/dL]"), 0.7, 0.95); // Feldman & Nelson; from memory
}
