#include "base/text.h"
#include "lesson/json_input.h"
#include "lesson/organ.h"
#include "lesson/record.h"

#include <cmath>

namespace cistern::lesson {

namespace {

using base::FaultKind;
using Json = nlohmann::json;

constexpr std::uint64_t format = 1;
const std::string formatKey = "cistern answers";

/// Does the actions of a script one by one in a lesson of its own, so that each refusal becomes a
/// fault at its place in the file.
class Script {
public:
    Script(JsonInput& in, const Case& subject, const Knowledge& knowledge)
        : in_(in), root_(in.root()), lesson_(subject, knowledge) {}

    std::vector<Action> actions() {
        const std::vector<std::string> keys = {formatKey, "draws", "organs",
                                               "points",  "next",  "distrust"};
        if (!in_.object(root_, "", keys)) return {};
        if (const Json* version = in_.member(root_, "", formatKey))
            if (*version != Json(format))
                in_.wrong(FaultKind::outOfRange, formatKey, *version, std::to_string(format));
        readDraws();
        turn(Stage::reading);
        readOrgans();
        readRest();
        if (in_.faults() > 0) return {}; // what is missing would only repeat it
        readLack();
        if (in_.faults() == 0) tryTo(Commit{}, "the file", root_);
        return lesson_.actions();
    }

private:
    void tryTo(const Action& action, const std::string& path, const Json& found) {
        try {
            lesson_.apply(action);
        } catch (const Refusal& refusal) {
            in_.refused(path, found, refusal);
        }
    }
    void turn(Stage page) { tryTo(Go{page}, "draws", root_.value("draws", Json::array())); }

    /// A draw is its number (all of its tests, handled as the case has it) or
    /// {"draw": 2, "tests": [...], "handling": {"serum clot": "10 min"}}.
    std::optional<ChooseTests> readDraw(const Json& at, const std::string& path) {
        const std::vector<Draw>& offered = lesson_.subject().draws;
        const bool byNumber = at.is_number();
        if (!byNumber && !in_.object(at, path, {"draw", "tests", "handling"})) return std::nullopt;
        const Json* number = byNumber ? &at : in_.member(at, path, "draw");
        if (!number) return std::nullopt;
        const auto draw = in_.drawNumber(*number, byNumber ? path : under(path, "draw"));
        if (!draw) return std::nullopt;
        if (*draw >= offered.size()) {
            in_.wrong(FaultKind::outOfRange, path, *number,
                      "a draw from 1 to " + std::to_string(offered.size()));
            return std::nullopt;
        }
        if (byNumber || !at.contains("tests")) return ChooseTests{*draw, offered[*draw].tests};
        const auto tests = in_.texts(at["tests"], under(path, "tests"));
        if (!tests) return std::nullopt;
        for (std::size_t i = 0; i < tests->size(); ++i)
            if (!in_.among(offered[*draw].tests, (*tests)[i], under(under(path, "tests"), i)))
                return std::nullopt;
        return ChooseTests{*draw, *tests};
    }

    void readDraws() {
        turn(Stage::plan);
        const auto list = root_.find("draws");
        if (list == root_.end() || !in_.array(*list, "draws")) return;
        std::vector<std::optional<ChooseTests>> wanted(lesson_.subject().draws.size());
        std::vector<std::size_t> item(wanted.size());
        for (std::size_t i = 0; i < list->size(); ++i) {
            const auto choice = readDraw((*list)[i], under("draws", i));
            if (!choice) continue;
            if (wanted[choice->draw])
                in_.wrong(FaultKind::duplicateKey, under("draws", i), (*list)[i], "each draw once");
            wanted[choice->draw] = choice;
            item[choice->draw] = i;
        }
        for (std::size_t draw = 0; draw < wanted.size(); ++draw) {
            if (!wanted[draw]) {
                tryTo(ChooseTests{draw, {}}, "draws", *list);
                continue;
            }
            const std::string path = under("draws", item[draw]);
            const Json& at = (*list)[item[draw]];
            if (at.is_object() && at.contains("handling"))
                readHandling(draw, at["handling"], under(path, "handling"));
            tryTo(*wanted[draw], path, at);
        }
    }

    void readHandling(std::size_t draw, const Json& at, const std::string& path) {
        if (!at.is_object()) {
            in_.wrong(FaultKind::wrongShape, path, at,
                      "an object { } such as {\"serum clot\": \"10 min\"}");
            return;
        }
        for (const auto& [key, value] : at.items())
            if (const auto how = in_.text(value, under(path, key)))
                tryTo(Handle{draw, key, *how}, under(path, key), value);
    }

    void readOrgans() {
        const auto organs = root_.find("organs");
        if (organs == root_.end()) return;
        if (!organs->is_object()) {
            in_.wrong(FaultKind::wrongShape, "organs", *organs, "an object { } of organs");
            return;
        }
        for (const auto& [key, value] : organs->items()) {
            const std::string path = under("organs", key);
            const auto organ = in_.organ(key, path);
            if (!organ || !in_.object(value, path, {"leak", "work"})) continue;
            if (value.contains("leak")) {
                const auto band = in_.band(value["leak"], under(path, "leak"), "fold");
                if (band) tryTo(SetLeak{*organ, *band}, under(path, "leak"), value["leak"]);
            }
            if (value.contains("work")) {
                const auto band = in_.band(value["work"], under(path, "work"), "%");
                if (band) tryTo(SetWork{*organ, *band}, under(path, "work"), value["work"]);
            }
        }
    }

    void readRest() {
        const Questions ask = lesson_.questions();
        if (const auto at = root_.find("points"); at != root_.end())
            if (const auto points = in_.points(*at, "points")) {
                bool known = true;
                for (const auto& [key, value] : *points)
                    known = in_.among(ask.explanations, key, under("points", key)) && known;
                if (known) tryTo(SetPoints{*points}, "points", *at);
            }
        if (const auto at = root_.find("next"); at != root_.end())
            if (const auto step = in_.text(*at, "next"))
                if (in_.among(ask.next, *step, "next")) tryTo(SetNext{*step}, "next", *at);
        if (const auto at = root_.find("distrust"); at != root_.end())
            if (const auto list = in_.analytes(*at, "distrust"))
                tryTo(SetDistrusted{*list}, "distrust", *at);
    }

    /// What a whole reading still lacks.
    void readLack() {
        const Questions ask = lesson_.questions();
        const Answers& said = lesson_.answers();
        for (const body::Tissue organ : ask.organs) {
            const std::string path = under("organs", std::string(body::name(organ)));
            const auto at = said.organs.find(organ);
            if (organOf(organ).leaks && (at == said.organs.end() || !at->second.leak))
                in_.fault(FaultKind::missingKey, under(path, "leak"), "",
                          "an 80 % band in fold such as {\"best\": 2, \"low\": 1, \"high\": 4}");
            if (at == said.organs.end() || !at->second.work)
                in_.fault(FaultKind::missingKey, under(path, "work"), "",
                          "an 80 % band in % such as {\"best\": 80, \"low\": 60, \"high\": 95}");
        }
        double sum = 0;
        for (const auto& [explanation, points] : said.points) sum += points;
        if (!ask.explanations.empty() && said.points.empty())
            in_.fault(FaultKind::missingKey, "points", "",
                      "100 points over " + base::listed(ask.explanations, "and"));
        else if (!ask.explanations.empty() && std::abs(sum - 100) > pointsSlack)
            in_.fault(FaultKind::outOfRange, "points", pointsText(sum) + " in all",
                      "points that add up to 100");
        if (!ask.next.empty() && !said.next)
            in_.fault(FaultKind::missingKey, "next", "", base::listed(ask.next));
    }

    JsonInput& in_;
    const Json& root_;
    Lesson lesson_;
};

} // namespace

std::vector<Action> readAnswers(const std::string& text, const std::string& file,
                                const Case& subject, const Knowledge& knowledge) {
    JsonInput in(text, file);
    std::vector<Action> actions = Script(in, subject, knowledge).actions();
    in.done();
    return actions;
}

std::string exampleAnswers(const Lesson& lesson) {
    const Questions ask = lesson.questions();
    nlohmann::ordered_json out;
    out[formatKey] = format;
    for (std::size_t draw = 0; draw < lesson.subject().draws.size(); ++draw)
        out["draws"].push_back(draw + 1);
    for (const body::Tissue organ : ask.organs) {
        auto& answer = out["organs"][std::string(body::name(organ))];
        if (organOf(organ).leaks) answer["leak"] = {{"best", 1.5}, {"low", 0.7}, {"high", 8}};
        answer["work"] = {{"best", "80 %"}, {"low", "25 %"}, {"high", "100 %"}};
    }
    // Whole points that add up to 100.
    const int n = static_cast<int>(ask.explanations.size());
    for (int i = 0; i < n; ++i)
        out["points"][ask.explanations[static_cast<std::size_t>(i)]] =
            100 / n + (i < 100 % n ? 1 : 0);
    if (!ask.next.empty()) out["next"] = ask.next.front();
    out["distrust"] = nlohmann::ordered_json::array();
    return out.dump(2);
}

} // namespace cistern::lesson
