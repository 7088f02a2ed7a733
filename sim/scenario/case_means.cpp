// What the explanations of a case mean, where the insults' own `explains` do not say it.
#include "base/text.h"
#include "lesson/answers.h"
#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"

#include <algorithm>

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// Insults by name: one, or a list of them.
std::vector<const body::InsultKind*> kinds(Reader reader, const CaseReader& part) {
    std::vector<const body::InsultKind*> all;
    std::vector<Reader> items{reader};
    if (reader.isList()) items = reader.items();
    for (Reader& item : items) {
        const body::InsultKind* kind = part.kindNamed(item);
        if (!kind) continue;
        if (part.knowsKind && !part.serves(*kind))
            item.fault(FaultKind::contradiction, kind->name,
                       "an insult that is known in a " +
                           std::string(body::name(part.lesson.who.kind)));
        else if (std::find(all.begin(), all.end(), kind) != all.end())
            item.fault(FaultKind::duplicateKey, kind->name, "each insult once");
        else
            all.push_back(kind);
    }
    return all;
}

/// One way in which an explanation is true; nothing after a fault.
std::optional<reader::Meaning> meaning(Reader& map, const CaseReader& part) {
    const std::size_t before = part.sheet.faultCount();
    reader::Meaning out;
    Reader with = map.need("with"), without = map.find("without"), severity = map.find("severity"),
           running = map.find("running");
    if (with.isList() && with.items().empty())
        with.fault(FaultKind::wrongShape, "", "at least one insult");
    if (with) out.with = kinds(with, part);
    if (without) out.without = kinds(without, part);
    for (const body::InsultKind* kind : out.without)
        if (std::find(out.with.begin(), out.with.end(), kind) != out.with.end())
            without.fault(FaultKind::contradiction, kind->name,
                          "insults that 'with' does not name");
    if (severity && !out.with.empty()) {
        const body::InsultKind& first = *out.with.front();
        const bool bare = first.shownUnit == "1" || first.shownUnit == "fold";
        out.severity =
            readSpan(severity, {first.unit, first.least, first.most, first.shownUnit, bare});
    }
    if (running) out.running = running.truth();
    map.noMore();
    if (part.sheet.faultCount() != before) return std::nullopt;
    return out;
}

} // namespace

void CaseReader::means(Reader map) {
    for (Reader& member : map.members()) {
        const std::string phrase = member.node()->key;
        const auto& list = lesson.explanations;
        if (phrase == lesson::nothingWrong) {
            sheet.fault(FaultKind::contradiction, member.node()->keySpot, member.subject(), phrase,
                        "another explanation: 'nothing wrong' is what no insult is");
        } else if (std::find(list.begin(), list.end(), phrase) == list.end()) {
            const std::string near = base::nearest(phrase, list);
            sheet.fault(FaultKind::unknownName, member.node()->keySpot, member.subject(), phrase,
                        near.empty() ? "one of ask.explanations"
                                     : "'" + near + "', the nearest explanation");
        }
        std::vector<Reader> ways{member};
        if (member.isList()) ways = member.items();
        if (ways.empty()) member.fault(FaultKind::wrongShape, "", "at least one meaning");
        for (Reader& way : ways)
            if (auto one = meaning(way, *this)) lesson.means[phrase].push_back(std::move(*one));
    }
}

} // namespace cistern::scenario
