#pragma once
#include "at_hand.h"
#include "lesson/case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace cistern::test {

using Set = std::set<body::Analyte>;

inline bool within(const Set& part, const Set& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

/// What the laboratory prints for a shipped case, and the truth behind it, one of each a draw.
struct Printed {
    std::vector<lab::Report> reports;
    std::vector<body::Snapshot> truth;

    /// A result in the unit that the case's readers see.
    double value(std::size_t draw, body::Analyte analyte) const {
        const lab::Result* found = reports.at(draw).find(analyte);
        REQUIRE(found != nullptr);
        return found->value * assets().knowledge.bench.method(analyte).conventional.factor;
    }
    Set outside(std::size_t draw, lab::Flag flag) const {
        Set all;
        for (const lab::Result& result : reports.at(draw).results)
            if (result.flag == flag) all.insert(result.analyte);
        return all;
    }
    Set high(std::size_t draw) const { return outside(draw, lab::Flag::high); }
    Set low(std::size_t draw) const { return outside(draw, lab::Flag::low); }
};

/// The case of a bare name.
inline lesson::Case shipped(const std::string& name) {
    return scenario::readCase(base::Disk(), CISTERN_SOURCE "/scenarios/" + name + ".yaml",
                              assets().knowledge);
}

inline Printed print(const lesson::Case& lesson) {
    const auto& knowledge = assets().knowledge;
    const body::Individual animal = lesson::patient(lesson, knowledge);
    Printed printed;
    printed.truth = lesson::atDraws(lesson, knowledge);
    for (std::size_t i = 0; i < lesson.draws.size(); ++i)
        printed.reports.push_back(
            lesson::report(lesson, knowledge, animal, printed.truth[i], i, lesson.draws[i].tests));
    return printed;
}
inline Printed print(const std::string& name) {
    return print(shipped(name));
}

} // namespace cistern::test
