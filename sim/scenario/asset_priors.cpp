#include "scenario/prior_reader.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::scenario {

namespace {

using base::FaultKind;
using reader::ByKind;

constexpr std::array kinds{body::Kind::dog, body::Kind::cat};
constexpr double animals = 1000, sumSlack = 0.02; // a column may miss the sum by its rounding
using Weights = std::array<double, reader::ageCount>;

std::size_t of(body::Kind kind) {
    return static_cast<std::size_t>(kind);
}

bool acts(const body::InsultKind& insult, body::Kind kind) {
    return kind == body::Kind::dog ? insult.dog : insult.cat;
}

std::vector<std::string> insultNames(const Shelf& shelf) {
    std::vector<std::string> names;
    for (const body::InsultKind& one : shelf.insults()) names.push_back(one.name);
    return names;
}

std::string written(const Reader& value) {
    if (value.isScalar()) return value.node()->text;
    std::string text;
    for (const Node& member : value.node()->members)
        text +=
            (text.empty() ? "" : ", ") + (member.key.empty() ? "" : member.key + " ") + member.text;
    return text;
}

/// [8.2, 12, 10]: of 1000 animals, young, adult and old.
Weights readWeights(Reader list) {
    Weights weights{};
    std::vector<Reader> items = list.items();
    if (list.isList() && items.size() != weights.size())
        list.fault(FaultKind::wrongShape, "", "three weights: young, adult, old");
    for (std::size_t i = 0; i < std::min(items.size(), weights.size()); ++i)
        weights[i] = items[i].quantity({"1", 0, animals, "", true}).value_or(0);
    return weights;
}

/// {dog: [8.2, 12, 10], cat: [3.8, 5.5, 4.7]}, for the species in which it may be.
ByKind<Weights> readWeights(Shelf& shelf, Reader map, const std::string& name, const Sourced& usual,
                            ByKind<bool> wanted) {
    ByKind<Weights> weights{};
    if (!map) return weights;
    Sourced known;
    for (const body::Kind kind : kinds) {
        const std::string key(body::name(kind));
        if (!wanted[of(kind)]) continue; // noMore() refuses it
        Reader list = map.need(key);
        if (!list) continue;
        weights[of(kind)] = readWeights(list);
        known.value += (known.value.empty() ? "" : "; ") + key + " " + written(list);
    }
    Sourced from = knownFrom(shelf, map, usual);
    map.noMore();
    from.value = known.value + " per 1000";
    from.name = name;
    from.place = map.place();
    shelf.keep(std::move(from));
    return weights;
}

/// Puts a companion's chance among those known.
void addCompanion(std::vector<reader::Companion>& all, const body::InsultKind& kind,
                  body::Kind animal, double chance) {
    auto at = std::find_if(all.begin(), all.end(), [&](auto& one) { return one.kind == &kind; });
    if (at == all.end()) at = all.insert(all.end(), {&kind, {}});
    at->chance[of(animal)] = chance;
}

/// {Lester 2016: [vomiting]}: which numbers of a part are better known than the rest.
std::map<std::string, Sourced> readMarks(Shelf& shelf, Reader map, Standing standing,
                                         const std::vector<std::string>& numbers) {
    std::map<std::string, Sourced> marks;
    if (!map) return marks;
    for (Reader& source : map.members()) {
        const auto key = source.keyOneOf(shelf.sourceKeys(), "source");
        for (Reader& item : source.items())
            if (const auto at = item.oneOf(numbers, "number of this row"); at && key) {
                Sourced& known = marks[numbers[*at]];
                known.source = shelf.sourceKeys()[*key];
                known.standing = standing;
                known.place = item.place();
            }
    }
    return marks;
}

/// One row, or the part of it that is true of one species.
struct Part {
    Shelf& shelf;
    reader::InsultPrior& prior;
    const Sourced& usual;
    std::vector<body::Kind> of;
    std::string name; ///< "prior pancreatitis", "prior pancreatitis in the dog"

    void read(Reader& map) {
        const body::InsultKind& kind = *prior.kind;
        spread(map.find("severity"), "severity", prior.severity, severityRange(kind),
               severityShape(kind));
        spread(map.find("onset"), "onset", prior.onset, timeRange(), reader::Spread::Shape::fold);
        spread(map.find("duration"), "duration", prior.duration, timeRange(),
               reader::Spread::Shape::fold);
        std::vector<Reader> numbers;
        companions(map.find("companions"), numbers);
        Reader shows = map.find("shows");
        const auto signs = readShows(shows, shelf.assets().knowledge.findings);
        for (const body::Kind one : of)
            for (const auto& [sign, chance] : signs) prior.shows[scenario::of(one)][sign] = chance;
        if (shows.isMap())
            for (Reader& member : shows.members()) numbers.push_back(member);
        keep(numbers, map);
    }

private:
    void spread(Reader map, const std::string& what, ByKind<reader::Spread>& into,
                const Range& range, reader::Spread::Shape shape) {
        if (!map) return;
        const auto read = readSpread(shelf, map, range, shape, name + "." + what, usual);
        for (const body::Kind one : of) into[scenario::of(one)] = read;
    }
    void companions(Reader map, std::vector<Reader>& numbers) {
        if (!map) return;
        const std::vector<std::string> names = insultNames(shelf);
        for (Reader& member : map.members()) {
            numbers.push_back(member);
            const auto at = member.keyOneOf(names, "insult");
            const auto chance = readChance(member);
            if (!at || !chance) continue;
            for (const body::Kind one : of)
                addCompanion(prior.companions, shelf.insults()[*at], one, *chance);
        }
    }
    /// One entry for the numbers that are known as the row is, and one for each that is known
    /// better.
    void keep(std::vector<Reader>& numbers, Reader& map) {
        std::vector<std::string> names;
        for (const Reader& one : numbers) names.push_back(one.node()->key);
        auto marks = readMarks(shelf, map.find("published"), Standing::published, names);
        marks.merge(readMarks(shelf, map.find("from memory"), Standing::fromMemory, names));
        Sourced rest = usual;
        for (const Reader& one : numbers) {
            if (!one.isScalar()) continue;
            const std::string &key = one.node()->key, &value = one.node()->text;
            if (const auto mark = marks.find(key); mark != marks.end()) {
                mark->second.name = name + "." + key;
                mark->second.value = value;
                shelf.keep(mark->second);
            } else {
                if (rest.value.empty()) rest.place = one.place();
                rest.value += (rest.value.empty() ? "" : ", ") + key + " " + value;
            }
        }
        rest.name = name + ".shows and companions";
        if (!rest.value.empty()) shelf.keep(std::move(rest));
    }
};

/// {female: 0.05, male: 1.9}
void readSexes(Reader map, std::array<double, 4>& factors) {
    static const std::vector<std::string> names{"female", "spayed female", "male",
                                                "neutered male"}; // by body::Sex
    if (!map) return;
    for (Reader& member : map.members())
        if (const auto at = member.keyOneOf(names, "sex"))
            factors[*at] = member.quantity({"1", 0, 100, "", true}).value_or(1);
}

void readInsultPrior(Shelf& shelf, Reader& item, const Sourced& fileWide) {
    auto& priors = shelf.assets().knowledge.priors;
    Reader insult = item.need("insult");
    const auto at = insult.oneOf(insultNames(shelf), "insult");
    if (!at) return;
    reader::InsultPrior prior;
    prior.kind = &shelf.insults()[*at];
    const body::InsultKind& kind = *prior.kind;
    if (priors.find(kind)) insult.fault(FaultKind::duplicateKey, kind.name, "each insult once");
    const std::string name = "prior " + kind.name;
    const Sourced usual = knownFrom(shelf, item, fileWide);
    prior.weight =
        readWeights(shelf, item.need("weight"), name + ".weight", usual, {kind.dog, kind.cat});
    prior.span = readActing(item.need("span")).value_or(prior.span);
    if (Reader passing = item.find("passing")) prior.passing = passing.truth().value_or(false);
    readSexes(item.find("sex"), prior.sexFactor);
    Part{shelf, prior, usual, {kinds.begin(), kinds.end()}, name}.read(item);
    for (const body::Kind one : kinds) {
        const std::string in = "in the " + std::string(body::name(one));
        Reader own = acts(kind, one) ? item.find(in) : Reader(item.sheet(), nullptr, in);
        if (own) {
            Part{shelf, prior, usual, {one}, name + " " + in}.read(own);
            own.noMore();
        }
        if (!acts(kind, one)) continue;
        // Each has a severity and an onset, here or there; what ends or is slow has a duration.
        for (const char* key : {"severity", "onset", "duration"})
            if (!item.node()->find(key) && !(own.isMap() && own.node()->find(key)) &&
                (key != std::string("duration") || prior.span != reader::Span::running)) {
                item.need(key);
                break;
            }
    }
    item.noMore();
    priors.insults.push_back(std::move(prior));
}

/// A fault of all files of a folder together.
void ofFolder(Shelf& shelf, const std::string& folder, FaultKind kind, const std::string& subject,
              const std::string& found = "", const std::string& allowed = "") {
    base::Fault fault;
    fault.kind = kind;
    fault.place.file = folder;
    fault.subject = subject;
    fault.found = found;
    fault.allowed = allowed;
    shelf.fault(std::move(fault));
}

} // namespace

void readInsultPriors(Shelf& shelf, Reader root) {
    const Sourced usual = shelf.provenance(root);
    for (Reader& item : root.need("insults").items()) readInsultPrior(shelf, item, usual);
    root.noMore();
}

void readBeliefs(Shelf& shelf, Reader root) {
    reader::Priors& priors = shelf.assets().knowledge.priors;
    const Sourced usual = shelf.provenance(root);
    priors.nothingWrong = readWeights(shelf, root.need("nothing wrong"),
                                      "prior nothing wrong.weight", usual, {true, true});
    const std::vector<std::string> names = insultNames(shelf);
    for (Reader& member : root.need("alongside").members()) {
        const auto at = member.keyOneOf(names, "insult");
        Sourced known = knownFrom(shelf, member, usual);
        for (const body::Kind one : kinds) {
            Reader value = member.need(std::string(body::name(one)));
            const auto chance = readChance(value);
            if (at && chance) addCompanion(priors.alongside, shelf.insults()[*at], one, *chance);
            if (value.isScalar())
                known.value += (known.value.empty() ? "" : ", ") + std::string(body::name(one)) +
                               " " + value.node()->text;
        }
        if (member.isMap()) member.noMore();
        known.name = "prior alongside." + member.node()->key;
        known.place = member.place();
        shelf.keep(std::move(known));
    }
    const auto number = [&](const char* key, double& into, const Range& range) {
        into = shelf.sourced(root.need(key), std::string("prior ") + key, range).value_or(into);
    };
    const Range share{"1", 0, 1, "%"};
    number("check-ups", priors.checkUps, share);
    number("unrelated", priors.unrelated, share);
    number("stopped", priors.stopped, share);
    number("fed", priors.fed, share);
    number("longest", priors.longest, {"h", 24, 24 * 3650, "d"});
    number("together", priors.together, {"1", 0, 1, "", true});
    number("graded by", priors.gradedBy, {"1", 0, 5, "", true});
    number("trait", priors.trait, share);
    root.noMore();
}

void checkPriors(Shelf& shelf, const std::string& folder) {
    if (!shelf.good()) return; // what is broken is not missing as well
    const lesson::Knowledge& knowledge = shelf.assets().knowledge;
    const reader::Priors& priors = knowledge.priors;
    for (const body::InsultKind& kind : knowledge.insults)
        if (!priors.find(kind))
            ofFolder(shelf, folder, FaultKind::missingKey, "a row for the insult " + kind.name);
    for (const lesson::FindingKind& finding : knowledge.findings)
        if (finding.unit.empty() && !priors.sign(finding.name) && !shelf.toldByAge(finding.name))
            ofFolder(shelf, folder, FaultKind::missingKey,
                     "how often " + finding.name + " is told");
    static const std::array ages{"young", "adult", "old"};
    for (const body::Kind kind : kinds)
        for (std::size_t age = 0; age < ages.size(); ++age) {
            double sum = priors.nothingWrong[of(kind)][age];
            for (const reader::InsultPrior& one : priors.insults) sum += one.weight[of(kind)][age];
            if (!(std::abs(sum - animals) <= sumSlack * animals))
                ofFolder(shelf, folder, FaultKind::contradiction,
                         std::string("the weights of the ") + ages[age] + " " +
                             std::string(body::name(kind)),
                         plain(sum), "a sum of 1000, within 2 %");
        }
}

} // namespace cistern::scenario
