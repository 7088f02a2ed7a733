#include "base/units.h"
#include "lab/specimen/choices.h"
#include "scenario/prior_reader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace cistern::scenario {

namespace {

using base::FaultKind;
using reader::ByKind;

constexpr std::array kinds{body::Kind::dog, body::Kind::cat};
constexpr double endless = std::numeric_limits<double>::infinity();

std::size_t of(body::Kind kind) {
    return static_cast<std::size_t>(kind);
}

std::vector<std::string> findingNames(const Shelf& shelf, bool measured) {
    std::vector<std::string> names;
    for (const lesson::FindingKind& one : shelf.assets().knowledge.findings)
        if (one.unit.empty() != measured) names.push_back(one.name);
    return names;
}

void add(std::string& text, const std::string& more) {
    text += (text.empty() ? "" : "; ") + more;
}

/// A number that the two species share, or one for each: {dog: 150 /min, cat: 220 /min}.
ByKind<double> readByKind(Reader reader, const Range& range) {
    ByKind<double> values{};
    if (!reader.isMap()) {
        values.fill(reader.quantity(range).value_or(1));
        return values;
    }
    for (const body::Kind one : kinds)
        values[of(one)] = reader.need(std::string(body::name(one))).quantity(range).value_or(1);
    reader.noMore();
    return values;
}

std::string written(const Reader& value) {
    if (value.isScalar()) return value.node()->text;
    std::string text;
    if (value.isMap())
        for (const Node& member : value.node()->members)
            text += (text.empty() ? "" : ", ") + member.key + " " + member.text;
    return text;
}

/// {level: bilirubin, half: 2.8 mg/dL, width: 0.45 mg/dL, ceiling: 97 %}, or by `dryness` or
/// `insult` in place of `level`.
reader::Link readLink(Shelf& shelf, Reader item, const std::string& sign, const Sourced& usual) {
    reader::Link link;
    Range range{"1", -endless, endless, "%"};
    std::string follows = "dryness";
    if (Reader level = item.find("level")) {
        link.analyte = readName(level, body::analytes(), "analyte");
        follows = level.text();
        if (link.analyte) {
            range.unit = body::unit(*link.analyte);
            range.shown.clear(); // a plain number, or one with its %
            range.bare = range.unit == "1";
            range.molarMass = shelf.molarMass(*link.analyte);
        }
    } else if (Reader insult = item.find("insult")) {
        std::vector<std::string> names;
        for (const body::InsultKind& one : shelf.insults()) names.push_back(one.name);
        follows = insult.text();
        if (const auto at = insult.oneOf(names, "insult")) {
            link.insult = &shelf.insults()[*at];
            range = severityRange(*link.insult);
            range.least = -endless;
            range.most = endless;
        }
    } else {
        link.dryness = item.need("dryness").truth().value_or(false);
    }
    if (Reader ceiling = item.find("ceiling")) link.ceiling = readChance(ceiling).value_or(1);
    Reader half = item.need("half"), width = item.need("width");
    if (link.analyte || link.insult || link.dryness) {
        const std::string unit = range.shown.empty() ? range.unit : range.shown;
        range.words = unit == "1" ? "any number" : "any number of " + unit;
        link.half = readByKind(half, range);
        link.width = readByKind(width, range);
    } else {
        link.width.fill(1); // of what is not known no number can be told right or wrong
    }
    if (width && (link.width[0] == 0 || link.width[1] == 0))
        width.fault(FaultKind::outOfRange, written(width), "another number than 0");
    Sourced known = knownFrom(shelf, item, usual);
    item.noMore();
    known.name = "sign " + sign + ".link " + follows;
    known.value = "half " + written(half) + ", width " + written(width);
    known.place = item.place();
    shelf.keep(std::move(known));
    return link;
}

/// {check-up: 3 %, complaint: 30 %} of a species.
void readBackground(Reader map, body::Kind kind, reader::SignPrior& sign, std::string& words) {
    Reader checkUp = map.need("check-up"), complaint = map.need("complaint");
    sign.checkUp[of(kind)] = readChance(checkUp).value_or(0);
    sign.complaint[of(kind)] = readChance(complaint).value_or(0);
    if (map) map.noMore();
    add(words, std::string(body::name(kind)) + " " + written(checkUp) + ", " + written(complaint));
}

void readSign(Shelf& shelf, Reader item, double missed, const Sourced& fileWide) {
    reader::Priors& priors = shelf.assets().knowledge.priors;
    reader::SignPrior sign;
    sign.missed = missed;
    Reader finding = item.need("finding");
    const std::vector<std::string> names = findingNames(shelf, false);
    const auto at = finding.oneOf(names, "finding");
    if (!at) return;
    sign.name = names[*at];
    if (priors.sign(sign.name))
        finding.fault(FaultKind::duplicateKey, sign.name, "each finding once");
    Sourced known = knownFrom(shelf, item, fileWide);
    std::string& words = known.value;
    for (const body::Kind one : kinds)
        readBackground(item.need(std::string(body::name(one))), one, sign, words);
    if (Reader own = item.find("missed")) {
        sign.missed = readChance(own).value_or(missed);
        add(words, "missed " + written(own));
    }
    if (Reader called = item.find("told when absent")) {
        sign.calledWhenAbsent = readChance(called);
        add(words, "told when absent " + written(called));
    }
    const auto flag = [&](const char* key, bool& into) {
        if (Reader value = item.find(key)) into = value.truth().value_or(into);
    };
    flag("graded", sign.graded);
    flag("slow", sign.slow);
    flag("general", sign.general);
    if (Reader links = item.find("links"))
        for (const Reader& link : links.items())
            sign.links.push_back(readLink(shelf, link, sign.name, fileWide));
    item.noMore();
    known.name = "sign " + sign.name;
    known.place = finding.place();
    shelf.keep(std::move(known));
    priors.signs.push_back(std::move(sign));
}

/// {finding: heart rate, sign: tachycardia, above: {dog: 150 /min, cat: 220 /min}}
void readThreshold(Shelf& shelf, Reader item, const Sourced& usual) {
    reader::Priors& priors = shelf.assets().knowledge.priors;
    reader::Threshold threshold;
    const std::vector<std::string> measured = findingNames(shelf, true);
    std::vector<std::string> signs;
    for (const reader::SignPrior& one : priors.signs) signs.push_back(one.name);
    const auto finding = item.need("finding").oneOf(measured, "measured finding");
    const auto sign = item.need("sign").oneOf(signs, "sign");
    Reader above = item.find("above");
    Reader limit = above ? above : item.need("below");
    threshold.above = static_cast<bool>(above);
    Sourced known = knownFrom(shelf, item, usual);
    item.noMore();
    if (!finding || !sign || !limit) return;
    threshold.finding = measured[*finding];
    threshold.sign = signs[*sign];
    for (const lesson::FindingKind& one : shelf.assets().knowledge.findings)
        if (one.name == threshold.finding) threshold.limit = readByKind(limit, {one.unit, 0, 1000});
    known.name = "sign " + threshold.sign + "." + threshold.finding;
    known.value = (threshold.above ? "above " : "below ") + written(limit);
    known.place = limit.place();
    shelf.keep(std::move(known));
    priors.thresholds.push_back(std::move(threshold));
}

/// Blood of which every tube was filled, for trying what may be done to it.
lab::Handling everyTube() {
    lab::Handling handling;
    for (const std::string_view name : lab::tubeNames)
        handling.tubes.push_back(lab::usualTube(std::string(name)));
    return handling;
}

/// Why this cannot be done to a specimen; "" if it can.
std::string refusal(const std::string& what, const std::string& value) {
    try {
        lab::handledOtherwise(everyTube(), what, value);
    } catch (const std::invalid_argument& refused) {
        return refused.what();
    }
    return "";
}

std::string inWords(const reader::Mishap& mishap, double size) {
    return mishap.unit.empty() ? std::to_string(std::llround(size))
                               : plain(size) + " " + mishap.unit;
}

void readMishap(Shelf& shelf, Reader item, const Sourced& usual) {
    reader::Mishap mishap;
    std::vector<std::string> names;
    for (const lab::Choice& one : lab::choices(everyTube())) names.push_back(one.name);
    Reader what = item.need("what"), chance = item.need("chance");
    const auto at = what.oneOf(names, "choice");
    mishap.chance = readChance(chance).value_or(0);
    if (Reader shown = item.find("shown")) mishap.shown = shown.truth().value_or(false);
    Sourced known = knownFrom(shelf, item, usual);
    if (at) mishap.what = names[*at];
    known.name = "mishap " + mishap.what;
    known.value = written(chance);
    known.place = item.place();
    Reader size = item.find("size");
    Reader how = size ? item.find("how") : item.need("how");
    if (how) {
        mishap.how = how.text();
        known.value += ", " + mishap.how;
        if (const std::string why = refusal(mishap.what, mishap.how); at && !why.empty())
            how.fault(FaultKind::contradiction, mishap.how, "what can be done: " + why);
    }
    if (size) {
        Reader median = size.find("median");
        const auto quantity = median.isScalar() ? base::readQuantity(median.text()) : std::nullopt;
        mishap.unit = quantity ? quantity->unit : "";
        const Range any{mishap.unit.empty() ? "1" : mishap.unit, 0, endless, "",
                        mishap.unit.empty()};
        mishap.size =
            readSpread(shelf, size, any, reader::Spread::Shape::fold, known.name + ".size", usual);
        reader::Spread& spread = *mishap.size;
        // As far again as the usual span where that can be done at all.
        const auto can = [&](double value) {
            return refusal(mishap.what, inWords(mishap, value)).empty();
        };
        spread.least = can(spread.low / 2) ? spread.low / 2 : spread.low;
        spread.most = can(spread.high * 2) ? spread.high * 2 : spread.high;
        for (const double value : {spread.low, spread.high})
            if (const std::string why = refusal(mishap.what, inWords(mishap, value));
                at && !why.empty())
                size.fault(FaultKind::contradiction, inWords(mishap, value),
                           "what can be done: " + why);
    }
    item.noMore();
    shelf.keep(std::move(known));
    shelf.assets().knowledge.priors.mishaps.push_back(std::move(mishap));
}

} // namespace

void readSigns(Shelf& shelf, Reader root) {
    const Sourced usual = shelf.provenance(root);
    const double missed =
        shelf.sourced(root.need("missed"), "sign.missed", {"1", 0, 1, "%"}).value_or(0);
    const std::vector<std::string> names = findingNames(shelf, false);
    for (Reader& item : root.need("told by the age").items())
        if (const auto at = item.oneOf(names, "finding")) shelf.tellByAge(names[*at]);
    for (const Reader& item : root.need("signs").items()) readSign(shelf, item, missed, usual);
    for (const Reader& item : root.need("thresholds").items()) readThreshold(shelf, item, usual);
    root.noMore();
}

void readMishaps(Shelf& shelf, Reader root) {
    const Sourced usual = shelf.provenance(root);
    Reader mishaps = root.need("mishaps");
    for (const Reader& item : mishaps.items()) readMishap(shelf, item, usual);
    root.noMore();
    double sum = 0;
    for (const reader::Mishap& one : shelf.assets().knowledge.priors.mishaps) sum += one.chance;
    if (!(sum <= 1))
        mishaps.fault(FaultKind::contradiction, plain(100 * sum) + " %",
                      "chances of at most 100 % together");
}

} // namespace cistern::scenario
