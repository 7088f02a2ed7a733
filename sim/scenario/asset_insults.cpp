#include "base/units.h"
#include "scenario/asset_reader.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::scenario {

namespace {

using base::FaultKind;

const std::vector<std::string>& laws() {
    static const std::vector<std::string> all{"share lost", "mass lost", "fold",
                                              "level",      "spent",     "constant"};
    return all;
}

/// In which unit a severity is held: shares as shares of one.
std::string heldUnit(const std::string& shown) {
    if (shown == "%") return "1";
    if (shown == "%/d") return "1/d";
    if (shown == "fold") return "1";
    return shown;
}

/// {unit: '%', least: 0.1 %, most: 95 %, usual: 3..60 %, source: KEY, standing: ...}
void readSeverity(Shelf& shelf, Reader reader, body::InsultKind& kind) {
    Reader unit = reader.need("unit");
    kind.shownUnit = unit.text();
    kind.unit = heldUnit(kind.shownUnit);
    if (unit && !base::knownUnit(kind.unit)) {
        unit.fault(FaultKind::unknownUnit, kind.shownUnit, "a unit such as '%' or 'g/kg'");
        return;
    }
    const Range any{kind.unit, 0, std::numeric_limits<double>::infinity(), kind.shownUnit,
                    kind.shownUnit == "1" || kind.shownUnit == "fold"};
    Reader least = reader.need("least"), most = reader.need("most");
    kind.least = least.quantity(any).value_or(0);
    kind.most = most.quantity(any).value_or(1);
    if (!(kind.least < kind.most))
        most.fault(FaultKind::wrongOrder, most.node()->text, "more than 'least'");
    Reader usual = reader.find("usual");
    const Range allowed{kind.unit, kind.least, kind.most, any.shown, any.bare};
    if (usual) readSpan(usual, allowed);
    Sourced sourced = shelf.provenance(reader);
    reader.noMore();
    sourced.name = "insult " + kind.name + ".severity";
    if (usual.isScalar()) sourced.value = usual.node()->text;
    sourced.range = inWords(allowed);
    sourced.place = reader.place();
    shelf.keep(std::move(sourced));
}

/// {drive: liver death, law: share lost, times: {value: 3 %, source: KEY, standing: ...}}
void readEffect(Shelf& shelf, Reader reader, body::InsultKind& kind) {
    body::Effect effect{};
    if (const auto drive = readName(reader.need("drive"), body::drives(), "drive"))
        effect.drive = *drive;
    Reader law = reader.need("law");
    if (const auto at = law.oneOf(laws(), "law")) effect.law = static_cast<body::Law>(*at);
    effect.times = 1;
    if (Reader times = reader.find("times")) {
        // A severity counted per day acts through the days that it is multiplied with.
        const bool perDay = kind.unit == "1/d" && effect.law == body::Law::level;
        const Range range{perDay ? "d" : "1", 0, 1e4, "", !perDay};
        const std::string what = "insult " + kind.name + "." + std::string(name(effect.drive));
        effect.times = shelf.sourced(times, what, range).value_or(1);
    }
    reader.noMore();
    kind.effects.push_back(effect);
}

} // namespace

void readInsults(Shelf& shelf, Reader root) {
    auto& all = shelf.assets().knowledge.insults;
    for (Reader& item : root.items()) {
        body::InsultKind kind;
        Reader insult = item.need("insult");
        kind.name = insult.text();
        if (std::any_of(all.begin(), all.end(),
                        [&](auto& known) { return known.name == kind.name; }))
            insult.fault(FaultKind::duplicateKey, kind.name, "each insult once");
        kind.counts = item.need("counts").text();
        readSeverity(shelf, item.need("severity"), kind);
        if (const auto tissue = readName(item.need("tissue"), body::tissues(), "tissue"))
            kind.tissue = *tissue;
        if (Reader species = item.find("species")) {
            kind.dog = kind.cat = false;
            for (const Reader& one : species.items())
                if (const auto which =
                        readName(one, std::array{body::Kind::dog, body::Kind::cat}, "species"))
                    (*which == body::Kind::dog ? kind.dog : kind.cat) = true;
        }
        for (const Reader& effect : item.need("effects").items()) readEffect(shelf, effect, kind);
        if (Reader explains = item.find("explains")) kind.explains = explains.texts();
        item.noMore();
        all.push_back(std::move(kind));
    }
}

} // namespace cistern::scenario
