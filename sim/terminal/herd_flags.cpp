#include "terminal/herd_intervals.h"

#include <algorithm>
#include <cmath>

namespace cistern::terminal {

namespace {

using Panel = std::vector<const Found*>;

/// Outside of the limits that this herd itself gave, as printed.
bool outsideOwn(const Found& one, std::size_t animal, const lab::Bench& bench) {
    if (!one.rebuilt.limits) return false;
    lab::Result result;
    result.analyte = one.analyte;
    result.value = static_cast<double>(one.results[animal]);
    if (std::isnan(result.value)) return false;
    result.interval = lab::Interval{};
    result.interval->low = one.rebuilt.limits->low.value;
    result.interval->high = one.rebuilt.limits->high.value;
    return judged(result, bench.method(one.analyte).conventional) != lab::Flag::none;
}

OneOutside counted(const std::string& tests, const Panel& panel, std::size_t animals,
                   const lab::Bench& bench) {
    OneOutside out;
    out.tests = tests;
    out.results = static_cast<int>(panel.size());
    std::size_t published = 0, own = 0;
    for (std::size_t i = 0; i < animals; ++i) {
        const auto any = [&](const auto& is) {
            return std::any_of(panel.begin(), panel.end(), is);
        };
        published += any([&](const Found* one) { return one->flagged[i]; });
        own += any([&](const Found* one) { return outsideOwn(*one, i, bench); });
    }
    out.published = static_cast<double>(published) / static_cast<double>(animals);
    out.own = static_cast<double>(own) / static_cast<double>(animals);
    return out;
}

/// The analytes of a test that have an interval; none if one that is run was not looked at.
Panel panelOf(const lab::Test& test, body::Kind kind, const lab::Bench& bench,
              const std::vector<Found>& found) {
    Panel panel;
    for (const body::Analyte analyte : test.analytes) {
        if (!bench.method(analyte).serves(kind)) continue;
        const auto one = std::find_if(found.begin(), found.end(),
                                      [&](const Found& f) { return f.analyte == analyte; });
        if (one == found.end()) return {};
        if (one->published) panel.push_back(&*one);
    }
    return panel;
}

} // namespace

std::vector<OneOutside> oneOutside(const Herd& herd, const lab::Bench& bench,
                                   const std::vector<Found>& found) {
    std::vector<OneOutside> shares;
    Panel all;
    for (const lab::Test& test : bench.tests) {
        const Panel panel = panelOf(test, herd.kind, bench, found);
        if (panel.size() < 2) continue;
        shares.push_back(counted(test.name, panel, herd.animals, bench));
        for (const Found* one : panel)
            if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
    }
    if (shares.size() > 1) shares.push_back(counted("all of these", all, herd.animals, bench));
    return shares;
}

} // namespace cistern::terminal
