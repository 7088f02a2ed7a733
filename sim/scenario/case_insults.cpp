#include "base/text.h"
#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"

#include <algorithm>
#include <array>

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// `from` and `to`, or `at` for an hour.
void readWindow(Reader& item, body::Insult& insult, double age) {
    Reader at = item.find("at"), from = item.find("from"), to = item.find("to");
    if (at && (from || to))
        at.fault(FaultKind::contradiction, at.text(), "either 'at' or 'from' and 'to'");
    if (!at && !from && !to) {
        item.need("from");
        return;
    }
    const auto begin = at ? at.quantity(clock()) : item.need("from").quantity(clock());
    const auto end = at ? begin : item.need("to").quantity(clock());
    if (!begin || !end) return;
    insult.from = *begin;
    insult.to = at ? *end + 1 : *end;
    if (!(insult.from < insult.to))
        to.fault(FaultKind::wrongOrder, to.text(), "a time after 'from', " + from.text());
    Reader& start = at ? at : from;
    if (insult.from < -age)
        start.fault(FaultKind::contradiction, start.text(), "a time after the animal's birth");
}

/// {spherocytes: 20 %, agglutinated: 15 %}: what the insult leaves on red cells, shares of them.
body::RedSigns readSigns(Reader map) {
    body::RedSigns signs;
    std::vector<std::string> known;
    for (const body::RedSign sign : body::redSigns()) known.emplace_back(name(sign));
    for (Reader& member : map.members())
        if (const auto at = member.keyOneOf(known, "sign on a film"))
            signs.share[*at] = member.quantity({"1", 0, 1, "%"}).value_or(0);
    return signs;
}

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

/// Explanations of the list that an insult makes true.
std::vector<std::string> explained(const lesson::Case& lesson, const body::InsultKind& kind) {
    std::vector<std::string> phrases{lower(kind.name)}, all;
    for (const std::string& phrase : kind.explains) phrases.push_back(lower(phrase));
    for (const std::string& explanation : lesson.explanations)
        if (std::find(phrases.begin(), phrases.end(), lower(explanation)) != phrases.end())
            all.push_back(explanation);
    return all;
}

/// Names out of a list of the same file; what is not on it is a fault.
std::vector<std::string> readChosen(Reader reader, const std::vector<std::string>& offered,
                                    const std::string& what) {
    std::vector<std::string> chosen;
    std::vector<Reader> items{reader};
    if (reader.isList()) items = reader.items();
    for (Reader& item : items)
        if (const auto at = item.oneOf(offered, what)) chosen.push_back(offered[*at]);
    return chosen;
}

} // namespace

const body::InsultKind* CaseReader::kindNamed(Reader name) const {
    if (!name.isScalar()) {
        name.text();
        return nullptr;
    }
    const std::string& wanted = name.node()->text;
    std::vector<std::string> known = spoiled;
    if (std::find(known.begin(), known.end(), wanted) != known.end()) return nullptr;
    for (const auto& kind : lesson.newInsults) {
        if (kind->name == wanted) return kind.get();
        known.push_back(kind->name);
    }
    for (const body::InsultKind& kind : knowledge.insults) {
        if (kind.name == wanted) return &kind;
        known.push_back(kind.name);
    }
    name.oneOf(known, "insult");
    return nullptr;
}

bool CaseReader::serves(const body::InsultKind& kind) const {
    return lesson.who.kind == body::Kind::dog ? kind.dog : kind.cat;
}

void CaseReader::insults(Reader list) {
    for (Reader& item : list.items()) {
        body::Insult insult;
        Reader name = item.need("insult");
        insult.kind = kindNamed(name);
        readWindow(item, insult, lesson.who.age);
        Reader severity = item.need("severity"), tissue = item.find("tissue");
        if (Reader film = item.find("film")) insult.film = readSigns(std::move(film));
        item.noMore();
        const auto organ = readName(tissue, body::tissues(), "tissue");
        if (!insult.kind) continue;
        const body::InsultKind& kind = *insult.kind;
        const bool bare = kind.shownUnit == "1" || kind.shownUnit == "fold";
        insult.severity =
            severity.quantity({kind.unit, kind.least, kind.most, kind.shownUnit, bare}).value_or(0);
        if (organ && *organ != kind.tissue)
            tissue.fault(FaultKind::contradiction, std::string(body::name(*organ)),
                         std::string(body::name(kind.tissue)) + ", where a " + kind.name + " acts");
        if (knowsKind && !serves(kind))
            name.fault(FaultKind::contradiction, kind.name,
                       "an insult that is known in a " + std::string(body::name(lesson.who.kind)));
        lesson.insults.push_back(insult);
    }
}

void CaseReader::answer(Reader map) {
    if (Reader explanation = map.find("explanation"))
        lesson.key.explanations = readChosen(explanation, lesson.explanations, "explanation");
    if (Reader next = map.find("next"))
        lesson.key.next = readChosen(next, lesson.next, "next step");
    if (Reader distrust = map.find("distrust"))
        for (const Reader& item : distrust.items())
            if (const auto analyte = readName(item, body::analytes(), "analyte"))
                lesson.key.distrust.push_back(*analyte);
    const bool stated = map.isMap() && map.node()->find("explanation");
    if (map) map.noMore();
    if (stated || lesson.explanations.empty() || !sheet.good()) return;

    // Not stated: it follows from the insult that is listed first.
    if (lesson.insults.empty()) {
        lesson.key.explanations = {"nothing wrong"};
    } else {
        lesson.key.explanations = explained(lesson, *lesson.insults.front().kind);
        if (lesson.key.explanations.empty())
            sheet.fault(FaultKind::missingKey, sheet.document().root.find("ask")->keySpot,
                        "answer.explanation", "",
                        "the true one of ask.explanations: none of them is known to follow from " +
                            lesson.insults.front().kind->name);
    }
}

} // namespace cistern::scenario
