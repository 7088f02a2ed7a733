#include "lesson/record.h"

#include "lesson/json_input.h"

#include <algorithm>

namespace cistern::lesson {

namespace {

using base::FaultKind;
using Json = nlohmann::json;

constexpr std::uint64_t format = 1;
const std::string formatKey = "cistern record";

// --- out

Json toJson(const Band& band) {
    return {{"best", band.best}, {"low", band.low}, {"high", band.high}};
}

std::string text(std::string_view view) {
    return std::string(view);
}

Json toJson(const std::vector<body::Analyte>& analytes) {
    Json list = Json::array();
    for (const body::Analyte analyte : analytes) list.push_back(text(body::name(analyte)));
    return list;
}

struct Writer {
    Json operator()(const Go& a) const { return {{"do", "go"}, {"to", text(name(a.to))}}; }
    Json operator()(const Back&) const { return {{"do", "back"}}; }
    Json operator()(const Undo&) const { return {{"do", "undo"}}; }
    Json operator()(const ChooseTests& a) const {
        return {{"do", "choose"}, {"draw", a.draw + 1}, {"tests", a.tests}};
    }
    Json operator()(const Handle& a) const {
        return {{"do", "handle"}, {"draw", a.draw + 1}, {"what", a.what}, {"how", a.how}};
    }
    Json operator()(const SetLeak& a) const {
        return {{"do", "leak"}, {"organ", text(body::name(a.organ))}, {"band", toJson(a.fold)}};
    }
    Json operator()(const SetWork& a) const {
        return {{"do", "work"}, {"organ", text(body::name(a.organ))}, {"band", toJson(a.percent)}};
    }
    Json operator()(const SetPoints& a) const { return {{"do", "points"}, {"points", a.points}}; }
    Json operator()(const SetNext& a) const { return {{"do", "next"}, {"next", a.next}}; }
    Json operator()(const SetDistrusted& a) const {
        return {{"do", "distrust"}, {"results", toJson(a.analytes)}};
    }
    Json operator()(const Commit&) const { return {{"do", "commit"}}; }
};

Json toJson(const Sheet& sheet) {
    Json parts = Json::array();
    for (const Mark& mark : sheet.parts) {
        Json part = {
            {"part", text(name(mark.part))}, {"points", mark.points}, {"weight", mark.weight}};
        if (mark.organ) part["organ"] = text(body::name(*mark.organ));
        parts.push_back(std::move(part));
    }
    return {{"total", sheet.total}, {"parts", std::move(parts)}};
}

Json marksOf(const Lesson& lesson) {
    if (!lesson.committed()) return nullptr;
    const Marks& marks = lesson.marks();
    return {{"learner", toJson(marks.learner)},
            {"shrug", toJson(marks.shrug)},
            {"naive", toJson(marks.naive)}};
}

// --- in

/// Reads one recorded action; empty after a fault.
class ActionReader {
public:
    ActionReader(JsonInput& in, const Json& at, std::string path)
        : in_(in), at_(at), path_(std::move(path)) {}

    std::optional<Action> read() {
        static const std::vector<std::string> kinds = {"go",     "back",     "undo",  "choose",
                                                       "handle", "leak",     "work",  "points",
                                                       "next",   "distrust", "commit"};
        if (!at_.is_object()) {
            in_.wrong(FaultKind::wrongShape, path_, at_, "an object { }");
            return std::nullopt;
        }
        const auto what = string("do");
        if (!what) return std::nullopt;
        if (*what == "go") return go();
        if (*what == "back" && only({})) return Back{};
        if (*what == "undo" && only({})) return Undo{};
        if (*what == "commit" && only({})) return Commit{};
        if (*what == "choose") return choose();
        if (*what == "handle") return handle();
        if (*what == "leak" || *what == "work") return band(*what == "leak");
        if (*what == "points") return points();
        if (*what == "next" && only({"next"})) {
            const auto step = string("next");
            return step ? std::optional<Action>(SetNext{*step}) : std::nullopt;
        }
        if (*what == "distrust") return distrust();
        if (std::find(kinds.begin(), kinds.end(), *what) == kinds.end())
            in_.unknown(under(path_, "do"), *what, kinds);
        return std::nullopt;
    }

private:
    bool only(std::vector<std::string> keys) {
        keys.push_back("do");
        const std::size_t before = in_.faults();
        in_.object(at_, path_, keys);
        return in_.faults() == before;
    }
    std::optional<std::string> string(const std::string& key) {
        const Json* value = in_.member(at_, path_, key);
        return value ? in_.text(*value, under(path_, key)) : std::nullopt;
    }
    std::optional<Action> go() {
        if (!only({"to"})) return std::nullopt;
        const auto page = string("to");
        if (!page) return std::nullopt;
        if (const auto stage = stageNamed(*page)) return Go{*stage};
        in_.unknown(under(path_, "to"), *page,
                    {"bedside", "plan", "report", "reading", "cutaway", "marks"});
        return std::nullopt;
    }
    std::optional<Action> choose() {
        if (!only({"draw", "tests"})) return std::nullopt;
        const Json* draw = in_.member(at_, path_, "draw");
        const Json* tests = in_.member(at_, path_, "tests");
        if (!draw || !tests) return std::nullopt;
        const auto number = in_.drawNumber(*draw, under(path_, "draw"));
        const auto list = in_.texts(*tests, under(path_, "tests"));
        if (!number || !list) return std::nullopt;
        return ChooseTests{*number, *list};
    }
    std::optional<Action> handle() {
        if (!only({"draw", "what", "how"})) return std::nullopt;
        const Json* draw = in_.member(at_, path_, "draw");
        const auto what = string("what"), how = string("how");
        const auto number = draw ? in_.drawNumber(*draw, under(path_, "draw")) : std::nullopt;
        if (!number || !what || !how) return std::nullopt;
        return Handle{*number, *what, *how};
    }
    std::optional<Action> band(bool leak) {
        if (!only({"organ", "band"})) return std::nullopt;
        const auto organName = string("organ");
        const Json* value = in_.member(at_, path_, "band");
        if (!organName || !value) return std::nullopt;
        const auto organ = in_.organ(*organName, under(path_, "organ"));
        const auto band = in_.band(*value, under(path_, "band"), leak ? "fold" : "%");
        if (!organ || !band) return std::nullopt;
        if (leak) return SetLeak{*organ, *band};
        return SetWork{*organ, *band};
    }
    std::optional<Action> points() {
        if (!only({"points"})) return std::nullopt;
        const Json* value = in_.member(at_, path_, "points");
        const auto points = value ? in_.points(*value, under(path_, "points")) : std::nullopt;
        return points ? std::optional<Action>(SetPoints{*points}) : std::nullopt;
    }
    std::optional<Action> distrust() {
        if (!only({"results"})) return std::nullopt;
        const Json* value = in_.member(at_, path_, "results");
        const auto list = value ? in_.analytes(*value, under(path_, "results")) : std::nullopt;
        return list ? std::optional<Action>(SetDistrusted{*list}) : std::nullopt;
    }

    JsonInput& in_;
    const Json& at_;
    std::string path_;
};

void checkHead(JsonInput& in, const Case& subject) {
    const Json& root = in.root();
    if (const Json* version = in.member(root, "", formatKey))
        if (*version != Json(format))
            in.wrong(FaultKind::outOfRange, formatKey, *version, std::to_string(format));
    if (const Json* name = in.member(root, "", "case"))
        if (*name != Json(subject.name))
            in.wrong(FaultKind::contradiction, "case", *name, "the case at hand, " + subject.name);
    if (const Json* seed = in.member(root, "", "seed"))
        if (*seed != Json(subject.who.seed))
            in.wrong(FaultKind::contradiction, "seed", *seed,
                     "the seed of the case at hand, " + std::to_string(subject.who.seed));
}

} // namespace

Json toJson(const Lesson& lesson) {
    Json actions = Json::array();
    for (const Action& action : lesson.actions()) actions.push_back(std::visit(Writer{}, action));
    return {{formatKey, format},
            {"case", lesson.subject().name},
            {"seed", lesson.subject().who.seed},
            {"actions", std::move(actions)},
            {"marks", marksOf(lesson)}};
}

Replay replay(const std::string& text, const std::string& file, const Case& subject,
              const Knowledge& knowledge) {
    JsonInput in(text, file);
    const Json& root = in.root();
    if (in.object(root, "", {formatKey, "case", "seed", "actions", "marks"}))
        checkHead(in, subject);
    in.done();
    const Json* list = in.member(root, "", "actions");
    std::vector<Action> actions;
    if (list && in.array(*list, "actions"))
        for (std::size_t i = 0; i < list->size(); ++i)
            if (auto action = ActionReader(in, (*list)[i], under("actions", i)).read())
                actions.push_back(std::move(*action));
    in.done();

    Lesson lesson(subject, knowledge);
    for (std::size_t i = 0; i < actions.size(); ++i) {
        try {
            lesson.apply(actions[i]);
        } catch (const Refusal& refusal) {
            in.refused(under("actions", i), (*list)[i], refusal);
            in.done();
        }
    }
    const auto recorded = root.find("marks");
    const bool same = (recorded == root.end() ? Json(nullptr) : *recorded) == marksOf(lesson);
    return {std::move(lesson), same};
}

} // namespace cistern::lesson
