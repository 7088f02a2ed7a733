#include "scenario/prior_reader.h"

#include "base/units.h"

#include <algorithm>
#include <array>

namespace cistern::scenario {

namespace {

using base::FaultKind;

constexpr double shortest = 1.0 / 60, longest = 1e5; // times before an animal is seen [h]

} // namespace

Sourced knownFrom(Shelf& shelf, Reader& row, const Sourced& usual) {
    if (row.isMap() && (row.node()->find("source") || row.node()->find("standing")))
        return shelf.provenance(row);
    Sourced known = usual;
    if (Reader note = row.find("note")) known.note = note.text();
    return known;
}

std::optional<double> readChance(Reader reader) {
    return reader.quantity({"1", 0, 1, "%"});
}

reader::Spread readSpread(Shelf& shelf, Reader map, const Range& range, reader::Spread::Shape shape,
                          const std::string& name, const Sourced& usual) {
    reader::Spread spread;
    spread.shape = shape;
    if (!map) return spread;
    Reader median = map.need("median"), span = map.need("usual");
    const auto middle = median.quantity(range);
    const auto ends = span ? readSpan(span, range) : std::nullopt;
    Sourced known = knownFrom(shelf, map, usual);
    map.noMore();
    spread.least = range.least;
    spread.most = range.most;
    if (!middle || !ends) return spread;
    spread.median = *middle;
    std::tie(spread.low, spread.high) = *ends;
    const bool share = shape == reader::Spread::Shape::share;
    if (!(spread.low > 0) || (share && !(spread.high < 1)))
        span.fault(FaultKind::outOfRange, span.text(),
                   share ? "between 0 and 100 %, both left out" : "more than 0");
    else if (!(spread.low <= spread.median && spread.median <= spread.high))
        median.fault(FaultKind::contradiction, median.text(),
                     "a value within the span beside it, " + span.text());
    known.name = name;
    known.value = median.text();
    known.range = span.text();
    known.place = median.place();
    shelf.keep(std::move(known));
    return spread;
}

Range severityRange(const body::InsultKind& kind) {
    const bool bare = kind.shownUnit == "1" || kind.shownUnit == "fold";
    return {kind.unit, kind.least, kind.most, kind.shownUnit, bare};
}

reader::Spread::Shape severityShape(const body::InsultKind& kind) {
    return kind.shownUnit.starts_with('%') ? reader::Spread::Shape::share
                                           : reader::Spread::Shape::fold;
}

Range timeRange() {
    return {"h", shortest, longest, "", false, 0, "1 min to 11 y"};
}

std::map<std::string, double> readShows(Reader map,
                                        const std::vector<lesson::FindingKind>& findings) {
    std::vector<std::string> names;
    for (const lesson::FindingKind& one : findings)
        if (one.unit.empty()) names.push_back(one.name);
    std::map<std::string, double> shows;
    if (!map) return shows;
    for (Reader& member : map.members())
        if (const auto at = member.keyOneOf(names, "finding"))
            if (const auto chance = readChance(member)) shows[names[*at]] = *chance;
    return shows;
}

std::optional<reader::Span> readActing(Reader reader) {
    static constexpr std::array all{reader::Span::ended, reader::Span::running, reader::Span::slow};
    static const std::vector<std::string> names{"ended", "running", "slow"};
    const auto at = reader.oneOf(names, "span");
    return at ? std::optional(all[*at]) : std::nullopt;
}

} // namespace cistern::scenario
