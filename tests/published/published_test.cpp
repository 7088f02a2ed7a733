#include "base/text.h"
#include "published/checks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>

using namespace published;

namespace {

struct Group {
    const char* name;
    std::vector<Check> (*checks)();
};
constexpr Group groups[] = {{"Liver enzymes", liverEnzymes},
                            {"Drugs", drugs},
                            {"Bile", bile},
                            {"Bile acids and shunt", bileAcids},
                            {"Muscle", muscle},
                            {"Protein and sugar", protein},
                            {"Kidney", kidney},
                            {"Water", water},
                            {"Growth", growth},
                            {"Red cells", redCells},
                            {"White cells", whiteCells},
                            {"Platelets", platelets},
                            {"Hormones", hormones},
                            {"Diabetes and fright", sugar},
                            {"Salts and acid", salts},
                            {"SDMA", waste},
                            {"Lost protein and acute phase", lostProtein},
                            {"Clotting", clotting},
                            {"Pancreas and fat", pancreas},
                            {"Heart", heart}};

const char* word(Basis basis) {
    switch (basis) {
    case Basis::independent:
        return "independent";
    case Basis::fitted:
        return "fitted";
    case Basis::consequence:
        return "algebra";
    }
    return "";
}

struct Tally {
    int of[3] = {}, met[3] = {}; ///< by basis
    int all() const { return of[0] + of[1] + of[2]; }
    int agree() const { return met[0] + met[1] + met[2]; }
};
Tally count(const std::vector<Check>& checks) {
    Tally tally;
    for (const Check& c : checks) {
        ++tally.of[static_cast<int>(c.basis)];
        tally.met[static_cast<int>(c.basis)] += c.met();
    }
    return tally;
}

std::string number(double value) {
    if (!std::isfinite(value)) return "never";
    return cistern::base::significant(std::fabs(value) < 1e-9 ? 0 : value, 3);
}
std::string inUnit(const std::string& text, const Check& c) {
    return c.unit == "1" ? text : text + " " + c.unit;
}
/// What was published, what is allowed, what the model does.
std::string compared(const Check& c) {
    return "Published: " + c.published +
           ". Allowed: " + inUnit(number(c.least) + " to " + number(c.most), c) +
           ". Model: " + inUnit(number(c.model), c) + ".";
}
/// A paragraph with its first line after `first` and the others as far in.
std::string paragraph(const std::string& first, const std::string& text) {
    std::string out, lead = first;
    const int width = cistern::base::width(first);
    for (const std::string& line : cistern::base::wrapped(text, 96 - width)) {
        out += lead + line + "\n";
        lead = std::string(static_cast<std::size_t>(width), ' ');
    }
    return out;
}
std::string row(const std::string& name, const Tally& tally) {
    const auto share = [](int met, int of) {
        return of == 0 ? std::string("-") : std::to_string(met) + " of " + std::to_string(of);
    };
    using cistern::base::padLeft;
    std::string line = cistern::base::padRight(name, 34);
    line += padLeft(std::to_string(tally.all()), 8) + padLeft(std::to_string(tally.agree()), 8);
    line += padLeft(std::to_string(tally.all() - tally.agree()), 8);
    for (int basis : {1, 0, 2}) line += padLeft(share(tally.met[basis], tally.of[basis]), 12);
    return line + "\n";
}

const char* preface =
    "# Published observations and what the model does\n\n"
    "The median dog and cat of the assets against what others observed or wrote. Written by the\n"
    "tests, which fail when it is not true any more; `CISTERN_RENEW=1` writes it anew.\n\n"
    "- `fitted`: a value of the assets was chosen to meet this or a like observation. It cannot\n"
    "  surprise.\n"
    "- `independent`: nothing was chosen with this observation in view. Only these are evidence,\n"
    "  and weak evidence: most tolerances were set when the model was known.\n"
    "- `algebra`: follows from a published constant or a balance that the model uses as it is.\n\n"
    "Every group with fitted checks has some that were not. A number without a unit is a ratio.\n";

std::string page() {
    std::string totals, misses, tables;
    Tally whole;
    for (const Group& group : groups) {
        const std::vector<Check> checks = group.checks();
        const Tally tally = count(checks);
        totals += row(group.name, tally);
        for (int i = 0; i < 3; ++i) whole.of[i] += tally.of[i], whole.met[i] += tally.met[i];
        tables += std::string("\n## ") + group.name + "\n\n```text\n";
        for (const Check& c : checks) {
            tables += paragraph(std::string(c.met() ? "agree" : "MISS ") + "  " +
                                    cistern::base::padRight(word(c.basis), 11) + "  ",
                                c.what);
            tables += paragraph("       ", compared(c));
            tables +=
                paragraph("       ", "Tolerance: " + c.reason + ". Source: " + c.source + ".");
            if (!c.met())
                misses += paragraph("- ", c.what + ". " + compared(c) +
                                              " Why: " + (c.missed.empty() ? "?" : c.missed) +
                                              ". Source: " + c.source + ".");
        }
        tables += "```\n";
    }
    std::string head = cistern::base::padRight("", 34) +
                       "  checks   agree    miss      fitted independent     algebra\n";
    return preface + ("\n## Totals\n\n```text\n" + head + totals) + row("All", whole) +
           "```\n\n## Misses\n\n" + misses + tables;
}

void judge(const std::vector<Check>& checks) {
    for (const Check& c : checks) {
        CAPTURE(c.what, c.published, c.model, c.least, c.most, c.unit, c.source, c.reason);
        CHECK(c.least <= c.most);
        CHECK(c.source != "");
        CHECK(c.reason != "");
        // A known miss that is met has to be struck off the list of misses.
        CHECK(c.met() == c.missed.empty());
    }
}

} // namespace

TEST_CASE("Enzymes of an injured liver follow the published courses", "[body]") {
    judge(liverEnzymes());
}
TEST_CASE("Steroids and phenobarbital act as in the published trials", "[body]") {
    judge(drugs());
}
TEST_CASE("Bilirubin and enzymes follow the published obstructions", "[body]") {
    judge(bile());
}
TEST_CASE("Bile acids follow meals and shunts as published", "[body]") {
    judge(bileAcids());
}
TEST_CASE("Enzymes of injured muscle follow the published courses", "[body]") {
    judge(muscle());
}
TEST_CASE("Albumin and glucose follow what is known of a failing liver", "[body]") {
    judge(protein());
}
TEST_CASE("Creatinine, urea and urine follow the published losses and blocks", "[body]") {
    judge(kidney());
}
TEST_CASE("A dry animal concentrates and recovers as published", "[body]") {
    judge(water());
}
TEST_CASE("Liver and bone grow as published", "[body]") {
    judge(growth());
}

TEST_CASE("Red cells are made, lost and refilled as published", "[body]") {
    judge(redCells());
}
TEST_CASE("White cells answer stress, fright and inflammation as published", "[body]") {
    judge(whiteCells());
}
TEST_CASE("Platelets fall and rebound as published", "[body]") {
    judge(platelets());
}
TEST_CASE("Glands in lack and in excess give the published pictures", "[body]") {
    judge(hormones());
}
TEST_CASE("Glucose follows lack of insulin and fright as published", "[body]") {
    judge(sugar());
}
TEST_CASE("Salts and acid follow failing kidneys as published", "[body]") {
    judge(salts());
}
TEST_CASE("SDMA follows filtration as published", "[body]") {
    judge(waste());
}
TEST_CASE("Lost protein and inflammation give the published pictures", "[body]") {
    judge(lostProtein());
}
TEST_CASE("Clotting slows as published without a liver", "[body]") {
    judge(clotting());
}
TEST_CASE("Pancreas and meals give the published enzymes and fat", "[body]") {
    judge(pancreas());
}
TEST_CASE("A dying heart gives the published enzymes", "[body]") {
    judge(heart());
}

TEST_CASE("Every group that was fitted has a check that was not", "[body]") {
    for (const Group& group : groups) {
        const Tally tally = count(group.checks());
        INFO(group.name);
        CHECK((tally.of[0] + tally.of[2] > 0 || tally.of[1] == 0));
    }
}

TEST_CASE("The page of published checks tells what the model does now", "[body]") {
    const std::string path = CISTERN_SOURCE "/tests/published/CHECKS.md";
    const std::string now = page();
    if (std::getenv("CISTERN_RENEW")) cistern::base::Disk().write(path, now);
    INFO("CISTERN_RENEW=1 in the environment writes " << path << " anew");
    CHECK(now == cistern::base::Disk().read(path));
}

// For people: the target cistern_published prints this.
TEST_CASE("All published checks in one table", "[.table]") {
    std::fputs(page().c_str(), stdout);
    CHECK(page().size() > 10000);
}
