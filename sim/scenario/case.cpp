#include "base/text.h"
#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"
#include "scenario/set.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <sstream>

namespace cistern::scenario {

namespace {

using base::FaultKind;

constexpr double day = 24, year = 365.25 * day;              // [h]
constexpr std::int64_t mostSeed = 9007199254740991;          // 2^53 - 1: exact in every JSON reader
constexpr double oldestDays = -20 * year, latest = 2 * year; // of a scenario's clock [h]

const std::vector<std::string> levels{"first year", "second year", "graduate", "owner"};
const std::vector<std::string> sexes{"female", "spayed female", "male", "neutered male"};
const std::vector<std::string> traits{"high-potassium red cells"};

/// The format's own number: the first thing that a file says.
void readFormat(Reader number) {
    if (number.isScalar() && number.node()->text != "1")
        number.fault(FaultKind::outOfRange, number.node()->text, "1, the format that is read here");
    else
        number.text();
}

/// Numbers that may differ from seat to seat.
bool varies(const std::string& path) {
    return path != "patient.seed" && path.find('.') != std::string::npos &&
           !path.starts_with("bench.") && !path.starts_with("exam.") &&
           !path.starts_with("new insults.");
}

} // namespace

const Node* at(const Node& root, const std::string& path) {
    const Node* node = &root;
    std::istringstream steps(path);
    for (std::string step; node && std::getline(steps, step, '.');)
        if (node->kind == Node::Kind::list) {
            std::size_t index = node->members.size();
            std::from_chars(step.data(), step.data() + step.size(), index);
            node = index < node->members.size() ? &node->members[index] : nullptr;
        } else {
            node = node->find(step);
        }
    return node;
}

Range clock() {
    return {"h", oldestDays, latest, "h", false, 0, "a time from -20 y to 2 y"};
}

Range span(double most, const std::string& words) {
    return {"h", 0, most, "h", false, 0, words};
}

void CaseReader::patient(Reader map) {
    if (Reader name = map.find("name")) lesson.patient = name.text();
    const auto kind =
        readName(map.need("species"), std::array{body::Kind::dog, body::Kind::cat}, "species");
    knowsKind = kind.has_value();
    lesson.who.kind = kind.value_or(body::Kind::dog);
    const bool cat = kind == body::Kind::cat;

    Range age{"h", 7 * day, 30 * year, "y", false, 0, "1 wk to 30 y"};
    lesson.who.age = map.need("age").quantity(age).value_or(lesson.who.age);
    Range weight{"kg", cat ? 0.1 : 0.2, cat ? 20.0 : 120.0};
    lesson.who.weight = map.need("weight").quantity(weight).value_or(lesson.who.weight);
    if (const auto sex = map.find("sex").oneOf(sexes, "sex"))
        lesson.who.sex = std::array{body::Sex::female, body::Sex::spayedFemale, body::Sex::male,
                                    body::Sex::neuteredMale}[*sex];
    lesson.who.condition = static_cast<int>(map.find("condition").count(1, 9).value_or(5));
    lesson.who.seed = static_cast<std::uint64_t>(map.need("seed").count(0, mostSeed).value_or(1));
    if (Reader trait = map.find("trait")) {
        if (trait.oneOf(traits, "trait")) lesson.who.potassiumRichCells = true;
    }
    if (map) map.noMore();
}

void CaseReader::exam(Reader list) {
    static const std::vector<std::string> usual{"mild", "moderate", "marked"};
    std::vector<std::string> names;
    for (const auto& kind : knowledge.findings) names.push_back(kind.name);
    std::vector<std::string> seen;
    for (Reader& item : list.items()) {
        Reader name = item.need("finding"), degree = item.find("degree"),
               value = item.find("value");
        item.noMore();
        const auto at = name.oneOf(names, "finding");
        if (!at) continue;
        const lesson::FindingKind& kind = knowledge.findings[*at];
        lesson::Finding finding{kind.name, "", std::nullopt, ""};
        if (std::find(seen.begin(), seen.end(), kind.name) != seen.end())
            name.fault(FaultKind::duplicateKey, kind.name, "each finding once");
        seen.push_back(kind.name);
        std::vector<std::string> degrees{"absent"};
        const auto& stated = kind.degrees.empty() ? usual : kind.degrees;
        for (const std::string& one : stated)
            if (one != "absent") degrees.push_back(one);
        if (const auto which = degree.oneOf(degrees, "degree")) finding.degree = degrees[*which];
        if (value && kind.unit.empty()) {
            value.fault(FaultKind::wrongShape, "", "no value: this finding is not measured");
        } else if (value) {
            finding.value = value.quantity({kind.unit, 0, 10000, "", kind.unit == "1"});
            finding.unit = kind.unit;
            if (degree)
                degree.fault(FaultKind::contradiction, degree.text(), "either a degree or a value");
        }
        lesson.exam.push_back(std::move(finding));
    }
}

void CaseReader::meals(Reader list) {
    for (Reader& item : list.items()) {
        const auto at = item.quantity(clock());
        if (!at) continue;
        if (!lesson.meals.empty() && *at < lesson.meals.back())
            item.fault(FaultKind::wrongOrder, item.text(), "meals from first to last");
        if (*at < -lesson.who.age)
            item.fault(FaultKind::contradiction, item.text(), "a time after the animal's birth");
        lesson.meals.push_back(*at);
    }
}

namespace {

/// Choices as they are put to the learner: by the alphabet, whatever their order in the file, so
/// that no place in the list tells which of them is true or best.
void inNeutralOrder(std::vector<std::string>& choices) {
    const auto lower = [](std::string text) {
        for (char& c : text)
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        return text;
    };
    std::stable_sort(choices.begin(), choices.end(),
                     [&](const auto& a, const auto& b) { return lower(a) < lower(b); });
}

} // namespace

void CaseReader::ask(Reader map) {
    if (Reader organs = map.find("organs"))
        for (const Reader& item : organs.items())
            if (const auto tissue = readName(item, body::tissues(), "organ"))
                lesson.organs.push_back(*tissue);
    if (Reader explanations = map.find("explanations")) {
        lesson.explanations = explanations.texts();
        if (explanations.isList() &&
            std::find(lesson.explanations.begin(), lesson.explanations.end(), "nothing wrong") ==
                lesson.explanations.end())
            explanations.fault(FaultKind::contradiction, "",
                               "a list with 'nothing wrong' in it: it can always be true");
    }
    if (Reader means = map.find("means")) this->means(means);
    if (Reader next = map.find("next")) lesson.next = next.texts();
    inNeutralOrder(lesson.explanations);
    inNeutralOrder(lesson.next);
    std::sort(lesson.organs.begin(), lesson.organs.end()); // as the body lists them
    if (map) map.noMore();
}

void CaseReader::vary(Reader map) {
    std::vector<std::string> paths;
    for (const auto& [path, range] : sheet.ranges)
        if (varies(path)) paths.push_back(path);
    for (Reader& member : map.members()) {
        const std::string path = member.node()->key;
        if (std::find(paths.begin(), paths.end(), path) == paths.end()) {
            if (!sheet.good() && at(sheet.document().root, path)) continue; // a fault of its own
            const std::string near = base::nearest(path, paths);
            sheet.fault(FaultKind::unknownName, member.node()->keySpot, member.subject(), path,
                        near.empty() ? "the path of a number of this file, as in 'patient.weight'"
                                     : "'" + near + "', the nearest number of this file");
            continue;
        }
        if (readSpan(member, sheet.ranges.at(path)))
            lesson.vary.push_back(path + ": " + member.node()->text);
    }
}

namespace {

lesson::Case readCase(Document document, const base::Files& files, const std::string& path,
                      const lesson::Knowledge& knowledge) {
    Sheet sheet(std::move(document));
    lesson::Case lesson;
    lesson.file = path;
    lesson.name = std::filesystem::path(path).stem().string();
    if (!sheet.document().whole) throw base::InputError(sheet.take());

    CaseReader part{knowledge, lesson, sheet};
    Reader root(sheet);
    if (const Node* set = root.isMap() ? root.node()->find(setKey) : nullptr) {
        sheet.fault(FaultKind::wrongShape, set->keySpot, "the file", "",
                    "a single case; this is a set of cases, which 'cistern check' reads");
        throw base::InputError(sheet.take());
    }
    readFormat(root.need("cistern"));
    lesson.title = root.need("title").text();
    if (const auto level = root.find("level").oneOf(levels, "level")) lesson.level = levels[*level];
    lesson.minutes = static_cast<int>(root.find("minutes").count(1, 600).value_or(0));
    if (Reader aims = root.find("aims")) lesson.aims = aims.texts();
    part.patient(root.need("patient"));
    for (const auto& [key, text] : {std::pair{"complaint", &lesson.complaint},
                                    {"history", &lesson.history},
                                    {"trap", &lesson.trap},
                                    {"settles", &lesson.settles},
                                    {"debrief", &lesson.debrief}})
        if (Reader reader = root.find(key)) *text = reader.text();
    part.exam(root.find("exam"));
    part.newInsults(root.find("new insults"), files);
    part.insults(root.find("insults"));
    part.meals(root.find("meals"));
    part.draws(root.need("draws"));
    part.bench(root.find("bench"));
    part.ask(root.find("ask"));
    part.answer(root.find("answer"));
    part.vary(root.find("vary"));
    root.noMore();
    if (!sheet.good()) throw base::InputError(sheet.take());
    return lesson;
}

} // namespace

lesson::Case readCase(const base::Files& files, const std::string& path,
                      const lesson::Knowledge& knowledge, std::optional<std::uint64_t> seed) {
    Document document = parse(path, files.read(path));
    lesson::Case written = readCase(document, files, path, knowledge);
    if (!seed || *seed == written.who.seed) return written;
    toVariant(document.root, *seed);
    return readCase(std::move(document), files, path, knowledge);
}

} // namespace cistern::scenario
