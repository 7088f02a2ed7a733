#include "base/units.h"
#include "body/plan.h"
#include "scenario/asset_reader.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace cistern::scenario {

namespace {

using base::FaultKind;

const std::vector<std::string>& laws() {
    static const std::vector<std::string> all{"share lost", "mass lost", "fold", "level",
                                              "spent",      "constant",  "daily"};
    return all;
}

/// In which unit a severity is held: shares as shares of one, losses as the body counts them.
std::string heldUnit(const std::string& shown) {
    if (shown == "%") return "1";
    if (shown == "%/d") return "1/d";
    if (shown == "fold") return "1";
    if (shown == "g/kg/d") return "g/kg/h";
    return shown;
}

/// {unit: '%', least: 0.1 %, most: 95 %, usual: 3..60 %, source: KEY, standing: ...}; false if the
/// limits cannot be relied on.
bool readSeverity(Shelf& shelf, Reader reader, body::InsultKind& kind) {
    Reader unit = reader.need("unit");
    kind.shownUnit = unit.text();
    kind.unit = heldUnit(kind.shownUnit);
    if (!unit.isScalar() || !base::knownUnit(kind.unit)) {
        if (unit.isScalar())
            unit.fault(FaultKind::unknownUnit, kind.shownUnit, "a unit such as '%' or 'g/kg'");
        return false;
    }
    const Range any{kind.unit, 0, std::numeric_limits<double>::infinity(), kind.shownUnit,
                    kind.shownUnit == "1" || kind.shownUnit == "fold"};
    Reader least = reader.need("least"), most = reader.need("most");
    const auto low = least.quantity(any), high = most.quantity(any);
    kind.least = low.value_or(0);
    kind.most = high.value_or(1);
    const bool sound = low && high && kind.least < kind.most;
    if (low && high && !sound)
        most.fault(FaultKind::wrongOrder, most.node()->text, "more than 'least'");
    Reader usual = reader.find("usual");
    const Range allowed{kind.unit, kind.least, kind.most, any.shown, any.bare};
    if (usual && sound) readSpan(usual, allowed);
    Sourced sourced = shelf.provenance(reader);
    reader.noMore();
    sourced.name = "insult " + kind.name + ".severity";
    if (usual.isScalar()) sourced.value = usual.node()->text;
    sourced.range = inWords(allowed);
    sourced.place = reader.place();
    shelf.keep(std::move(sourced));
    return sound;
}

/// Why the body would refuse what an effect makes of a severity; "" if it would not.
std::string refusal(const Shelf& shelf, body::InsultKind kind, const body::Effect& effect,
                    double severity) {
    kind.effects = {effect};
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat}) {
        if (!shelf.loaded(animal)) continue;
        body::Plan plan;
        plan.windows = body::windows({&kind, severity, 0, 1}, shelf.species(animal));
        try {
            plan.validate();
        } catch (const std::invalid_argument& refused) {
            const std::string why = refused.what();
            return why.substr(std::min(why.size(), why.find("the drive")));
        }
    }
    return "";
}

/// {drive: liver death, law: share lost, times: {value: 3 %, source: KEY, standing: ...}}
void readEffect(Shelf& shelf, Reader reader, body::InsultKind& kind, bool limited) {
    body::Effect effect{};
    const auto drive = readName(reader.need("drive"), body::drives(), "drive");
    Reader law = reader.need("law");
    const auto at = law.oneOf(laws(), "law");
    effect.drive = drive.value_or(effect.drive);
    if (at) effect.law = static_cast<body::Law>(*at);
    if (Reader times = reader.find("times")) {
        // A severity counted per day acts through the days that it is multiplied with.
        const bool perDay = kind.unit == "1/d" && effect.law == body::Law::level;
        const Range range{perDay ? "d" : "1", -1e4, 1e4, "", !perDay};
        const std::string what = "insult " + kind.name + "." + std::string(name(effect.drive));
        effect.times = shelf.sourced(times, what, range).value_or(1);
    }
    reader.noMore();
    kind.effects.push_back(effect);
    if (!drive || !at || !limited) return;
    for (const double severity : {kind.least, kind.most})
        if (const std::string why = refusal(shelf, kind, effect, severity); !why.empty()) {
            const double shown = severity * base::conversion(kind.unit, kind.shownUnit).value_or(1);
            const std::string unit = kind.shownUnit == "1" ? "" : " " + kind.shownUnit;
            law.fault(FaultKind::contradiction, law.text(),
                      "what suits a severity of " + plain(shown) + unit + ": " + why);
            return;
        }
}

} // namespace

void readInsult(Shelf& shelf, Reader item) {
    auto& all = shelf.assets().knowledge.insults;
    body::InsultKind kind;
    Reader insult = item.need("insult");
    kind.name = insult.text();
    if (std::any_of(all.begin(), all.end(), [&](auto& known) { return known.name == kind.name; }))
        insult.fault(FaultKind::duplicateKey, kind.name, "a name that no other insult has");
    kind.counts = item.need("counts").text();
    const bool limited = readSeverity(shelf, item.need("severity"), kind);
    if (const auto tissue = readName(item.need("tissue"), body::tissues(), "tissue"))
        kind.tissue = *tissue;
    if (Reader species = item.find("species")) {
        kind.dog = kind.cat = false;
        for (const Reader& one : species.items())
            if (const auto which =
                    readName(one, std::array{body::Kind::dog, body::Kind::cat}, "species"))
                (*which == body::Kind::dog ? kind.dog : kind.cat) = true;
    }
    Reader effects = item.need("effects");
    for (const Reader& effect : effects.items()) readEffect(shelf, effect, kind, limited);
    if (effects.isList() && kind.effects.empty())
        effects.fault(FaultKind::wrongShape, "", "at least one effect");
    if (Reader explains = item.find("explains")) kind.explains = explains.texts();
    if (shelf.ofACase()) item.find("prior"); // read once the insult is known to be sound
    item.noMore();
    all.push_back(std::move(kind));
}

void readInsults(Shelf& shelf, Reader root) {
    for (const Reader& item : root.items()) readInsult(shelf, item);
}

} // namespace cistern::scenario
