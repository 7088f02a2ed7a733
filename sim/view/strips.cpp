#include "view/strips.h"

#include "base/statistics.h"
#include "base/units.h"
#include "lab/change.h"
#include "view/meaning.h"

#include <algorithm>
#include <array>
#include <map>

namespace cistern::view {

namespace {

/// True if the middle 95 % of the peers span more than threefold.
bool scattered(std::vector<double> peers) {
    constexpr double threefold = 3;
    if (peers.empty()) return false;
    std::sort(peers.begin(), peers.end());
    const auto at = [&](double share) {
        return peers[static_cast<std::size_t>(share * static_cast<double>(peers.size() - 1))];
    };
    return at(0.025) > 0 && at(0.975) > threefold * at(0.025);
}

drawing::StripView::Bound boundOf(lab::Bound bound) {
    using Bound = drawing::StripView::Bound;
    return bound == lab::Bound::below   ? Bound::below
           : bound == lab::Bound::above ? Bound::above
                                        : Bound::exact;
}

std::string heading(const lab::Method& method) {
    static const std::map<std::string, std::string> headings{
        {"salts", "what is held in balance"},
        {"signals", "what is held in balance"},
        {"spun tube", "red cells"},
        {"white cells and platelets", "white cells"}};
    if (method.specimen == "urine") return "urine";
    if (method.analyte == body::Analyte::platelets) return "platelets";
    const auto found = headings.find(method.group);
    return found == headings.end() ? method.group : found->second;
}

} // namespace

drawing::StripView strip(const lab::Result& result, const lab::Result* earlier, const Crowd& crowd,
                         const lab::Bench& bench, lab::Units units) {
    const lab::Method& method = bench.method(result.analyte);
    const lab::Writing& writing = method.writing(units);
    drawing::StripView view;
    for (const double peer : crowd.peers(result.analyte))
        view.peers.push_back(peer * writing.factor);
    if (result.interval) {
        view.low = result.interval->low * writing.factor;
        view.high = result.interval->high * writing.factor;
    }
    view.value = result.value * writing.factor;
    view.halfWidth = result.halfWidth * writing.factor;
    view.bound = boundOf(result.bound);
    if (earlier)
        view.earlier = {earlier->value * writing.factor,
                        lab::changeAllowed(*earlier, result, crowd.within(result.analyte)) *
                            writing.factor};
    view.meaning = meaning(method);
    view.logarithmic = scattered(view.peers);
    view.valueWords = lab::printed(result, bench, units);
    if (writing.unit != "1") view.valueWords += " " + base::shown(writing.unit);
    return view;
}

std::vector<Strips> groups(const lab::Report& report, const lab::Bench& bench) {
    constexpr std::array order{
        "what leaks", "what works",  "what is cleared", "what is held in balance",
        "red cells",  "white cells", "platelets",       "clotting",
        "urine"};
    std::vector<Strips> found;
    const auto put = [&](const std::string& name) {
        Strips strips{name, {}, {}};
        for (const lab::Result& result : report.results) {
            const lab::Method& method = bench.method(result.analyte);
            if (heading(method) != name) continue;
            if (strips.results.empty()) strips.meaning = meaning(method);
            strips.results.push_back(&result);
        }
        if (!strips.results.empty()) found.push_back(std::move(strips));
    };
    for (const char* name : order) put(name);
    return found;
}

} // namespace cistern::view
