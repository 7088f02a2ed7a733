// What three readers make of every shipped case, word for word. CISTERN_RENEW=1 writes the table
// anew: read the difference before committing it.
#include "base/file.h"
#include "base/parallel.h"
#include "base/text.h"
#include "lesson/balance.h"
#include "scenario/assets.h"
#include "scenario/set.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <sstream>

using namespace cistern;

namespace {

const lesson::Knowledge& knowledge() {
    static const scenario::Assets all =
        scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    return all.knowledge;
}

const std::string approved = CISTERN_SOURCE "/tests/terminal/approved/readers_of_cases.txt";

std::vector<std::string> paths() {
    return base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml");
}

reader::Effort effort(std::size_t animals, int threads) {
    reader::Effort out;
    out.animals = animals;
    out.threads = threads;
    return out;
}

double weightOfTruth(const lesson::Readers& readers) {
    double sum = 0;
    const auto& isTrue = readers.truth.explanations;
    for (std::size_t i = 0; i < readers.posterior.names.size(); ++i)
        if (std::find(isTrue.begin(), isTrue.end(), readers.posterior.names[i]) != isTrue.end())
            sum += readers.posterior.weights[i];
    return sum;
}

std::string heaviest(const reader::Posterior& posterior) {
    if (posterior.weights.empty()) return "-";
    const auto at = std::max_element(posterior.weights.begin(), posterior.weights.end());
    return posterior.names[static_cast<std::size_t>(at - posterior.weights.begin())];
}

std::string line(const std::vector<std::string>& cells) {
    static const int widths[] = {28, 6, 6, 6, 9, 10};
    std::string text = base::padRight(cells[0], widths[0]);
    for (std::size_t i = 1; i + 1 < cells.size(); ++i) text += base::padLeft(cells[i], widths[i]);
    return text + "  " + cells.back() + "\n";
}

std::string line(const lesson::Case& one, const lesson::Readers& readers) {
    const auto whole = [](double value) { return base::rounded(value, 1); };
    return line({one.name, whole(readers.ideal.total), whole(readers.naive.total),
                 whole(readers.shrug.total), whole(100 * weightOfTruth(readers)),
                 whole(readers.posterior.effective), heaviest(readers.posterior)});
}

std::string setLine(const std::vector<std::string>& cells) {
    std::string text = base::padRight(cells[0], 28);
    for (std::size_t i = 1; i < 4; ++i) text += base::padLeft(cells[i], 6);
    return text + base::padLeft(cells[4], 13) + "\n";
}

std::string line(const scenario::Set& set, const lesson::Balance& balance) {
    const auto whole = [](double value) { return base::rounded(value, 1); };
    return setLine({set.name, whole(balance.ideal), whole(balance.naive), whole(balance.shrug),
                    balance.correlation ? base::rounded(*balance.correlation, 0.01) : "-"});
}

/// The lines of two texts that differ.
std::string difference(const std::string& now, const std::string& then) {
    std::istringstream a(now), b(then);
    std::string text, one, other;
    while (true) {
        const bool more = static_cast<bool>(std::getline(a, one));
        const bool had = static_cast<bool>(std::getline(b, other));
        if (!more && !had) return text;
        if (!more) one.clear();
        if (!had) other.clear();
        if (one != other) text += "approved: " + other + "\nnow:      " + one + "\n";
    }
}

} // namespace

TEST_CASE("what the readers make of every shipped case and set", "[scenario]") {
    constexpr std::size_t animals =
        20000; // half as many as in a lesson, to be done within a minute
    const int threads = base::threadsHere();
    std::string table = "Marks of three readers; weight of what is true in the ideal one, of 100; "
                        "its effective stories; its favorite.\n\n" +
                        line({"case", "ideal", "naive", "shrug", "truth", "effective", "favorite"});
    std::map<std::string, lesson::CaseFigures> figures;
    for (const std::string& path : paths()) {
        const lesson::Case one = scenario::readCase(base::Disk(), path, knowledge());
        const auto readers = lesson::readers(one, knowledge(), effort(animals, threads));
        table += line(one, readers);
        figures[one.name] = lesson::figures(one, knowledge(), readers);
    }
    table += "\nSets: mean marks, by weight; rank correlation of the leading result with lost "
             "work.\n\n" +
             setLine({"set", "ideal", "naive", "shrug", "correlation"});
    for (const std::string& path : base::Disk().list(CISTERN_SOURCE "/scenarios/sets", ".yaml")) {
        const scenario::Set set = scenario::readSet(base::Disk(), path, {});
        std::vector<lesson::CaseFigures> cases;
        for (const scenario::SetCase& one : set.cases) {
            cases.push_back(figures.at(one.name));
            cases.back().weight = one.weight;
        }
        const lesson::Balance balance = lesson::balance(cases);
        table += line(set, balance);
        INFO("set " << set.name);
        CHECK(balance.loudIsNoSickness());
        CHECK(balance.idealDoesWell());
        CHECK(balance.naiveGainsNothing());
    }
    if (std::getenv("CISTERN_RENEW")) base::Disk().write(approved, table);
    const std::string held = base::Disk().read(approved);
    INFO(difference(table, held));
    CHECK((table == held));
}

TEST_CASE("what the readers make of a case is the same for any number of threads", "[scenario]") {
    constexpr std::size_t few = 2000;
    const auto all = paths();
    for (std::size_t i = 0; i < all.size(); i += 9) {
        INFO(all[i]);
        const lesson::Case one = scenario::readCase(base::Disk(), all[i], knowledge());
        const auto alone = lesson::readers(one, knowledge(), effort(few, 1));
        const auto three = lesson::readers(one, knowledge(), effort(few, 3));
        CHECK(alone.posterior.weights == three.posterior.weights);
        CHECK(alone.posterior.effective == three.posterior.effective);
        CHECK(alone.ideal.total == three.ideal.total);
    }
}
