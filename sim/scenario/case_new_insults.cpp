#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"
#include "scenario/prior_reader.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace cistern::scenario {

namespace {

using base::FaultKind;

constexpr double day = 24; // [h]

/// The most that an insult makes of each drive within a day, in either species.
using Strengths = std::map<body::Drive, double>;
void strongest(Strengths& most, const body::InsultKind& kind, const lesson::Knowledge& knowledge) {
    for (const body::Species* species : {&knowledge.dog, &knowledge.cat})
        for (const double severity : {kind.least, kind.most})
            for (const body::Window& window : body::windows({&kind, severity, 0, day}, *species)) {
                double& known = most.try_emplace(window.drive, 0).first->second;
                known = std::max(known, std::abs(window.value));
            }
}

/// An effect may be as strong as any insult of the shelf makes it, so that what a case invents
/// stays within what the body is known to bear; and each drive has one.
void checkStrength(Reader effects, body::InsultKind kind, const lesson::Knowledge& knowledge) {
    Strengths shelf;
    for (const body::InsultKind& known : knowledge.insults) strongest(shelf, known, knowledge);
    const std::vector<body::Effect> all = std::move(kind.effects);
    const auto items = effects.items();
    for (std::size_t i = 0; i < all.size(); ++i) {
        Reader item = items[i];
        const body::Effect& effect = all[i];
        const auto same = [&](const body::Effect& other) { return other.drive == effect.drive; };
        const auto until = all.begin() + static_cast<std::ptrdiff_t>(i);
        if (std::any_of(all.begin(), until, same))
            item.find("drive").fault(FaultKind::duplicateKey, std::string(name(effect.drive)),
                                     "each drive once");
        kind.effects = {effect};
        Strengths own;
        strongest(own, kind, knowledge);
        const auto known = shelf.find(effect.drive);
        if (known == shelf.end() || !(own[effect.drive] > known->second * (1 + 1e-9))) continue;
        Reader times = item.find("times"), law = item.find("law");
        if (times.isMap()) times = times.find("value");
        Reader& place = times ? times : law;
        place.fault(FaultKind::outOfRange, place.text(),
                    "times " + plain(effect.times * known->second / own[effect.drive]) +
                        " at most, as strong as the insults at hand make it in a day");
    }
}

} // namespace

/// One that is sound, and what is believed of it.
void CaseReader::newInsult(Shelf& shelf, Reader& item, const body::InsultKind& kind) {
    lesson.newInsults.push_back(std::make_shared<const body::InsultKind>(kind));
    lesson.newPriors.push_back(readCasePrior(shelf, item, *lesson.newInsults.back()));
}

void CaseReader::newInsults(Reader list, const base::Files& files) {
    if (!list) return;
    Assets around;
    around.knowledge = knowledge;
    Shelf shelf(files, around, Shelf::Sources::any);
    shelf.load(body::Kind::dog);
    shelf.load(body::Kind::cat);
    auto& all = around.knowledge.insults;
    for (Reader& item : list.items()) {
        const std::size_t before = sheet.faultCount();
        readInsult(shelf, item);
        if (sheet.faultCount() == before)
            checkStrength(item.find("effects"), all.back(), knowledge);
        if (sheet.faultCount() == before)
            newInsult(shelf, item, all.back());
        else
            spoiled.push_back(all.back().name);
    }
}

} // namespace cistern::scenario
