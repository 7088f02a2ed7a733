#include "report/weigh.h"

#include "lesson/organ.h"
#include "report/json_number.h"

#include <algorithm>
#include <cmath>

namespace cistern::report {

namespace {

using Json = nlohmann::ordered_json;

constexpr double percent = 100;

/// Weights in millionths that add up to a whole: cut off, then the largest remainders made up.
std::vector<double> millionths(const std::vector<double>& weights) {
    constexpr double whole = 1e6;
    double sum = 0;
    for (const double weight : weights) sum += weight;
    std::vector<double> kept, rest;
    double left = whole;
    for (const double weight : weights) {
        const double exact = sum > 0 ? whole * weight / sum : whole / double(weights.size());
        kept.push_back(std::floor(exact));
        rest.push_back(exact - kept.back());
        left -= kept.back();
    }
    const std::vector<std::size_t> order = greatestFirst(rest);
    for (std::size_t i = 0; i < order.size() && left > 0.5; ++i, --left) ++kept[order[i]];
    for (double& one : kept) one /= whole;
    return kept;
}

double at(const std::vector<double>& values, std::size_t i) {
    return i < values.size() ? values[i] : 0;
}

Json explanations(const reader::Posterior& posterior) {
    const std::vector<double> weights = millionths(posterior.weights);
    Json list = Json::array();
    for (const std::size_t i : greatestFirst(weights))
        list.push_back(Json{{"name", posterior.names[i]},
                            {"weight", weights[i]},
                            {"error", plain(at(posterior.errors, i))},
                            {"prior", plain(at(posterior.prior, i))},
                            {"after_exam", plain(at(posterior.signs, i))}});
    return list;
}

Json points(const reader::Points& points, double factor, const char* unit) {
    return {{"low", plain(factor * points.p05)},
            {"median", plain(factor * points.median)},
            {"high", plain(factor * points.p95)},
            {"unit", unit}};
}

Json organs(const reader::Posterior& posterior) {
    Json map = Json::object();
    for (const reader::OrganBelief& one : posterior.organs) {
        Json& json = map[std::string(body::name(one.organ))];
        json["work"] = points(one.work, percent, "%");
        if (lesson::organOf(one.organ).leaks) json["leak"] = points(one.leak, 1, "fold");
    }
    return map;
}

Json moved(const reader::Posterior& posterior) {
    std::vector<double> bits;
    for (const reader::Moved& one : posterior.moved) bits.push_back(one.bits);
    Json list = Json::array();
    for (const std::size_t i : greatestFirst(bits)) {
        const reader::Moved& one = posterior.moved[i];
        Json json{{"what", one.what}, {"kind", one.finding ? "finding" : "result"}};
        if (!one.finding) json["draw"] = one.sample + 1;
        json["bits"] = plain(one.bits);
        if (const int to = towards(one, posterior.prior); to >= 0)
            json["towards"] = posterior.names[static_cast<std::size_t>(to)];
        list.push_back(std::move(json));
    }
    return list;
}

Json spoiled(const reader::Posterior& posterior) {
    constexpr double worthSaying = 0.01;
    Json list = Json::array();
    for (std::size_t i = 0; i < posterior.results.size(); ++i)
        if (at(posterior.spoiled, i) >= worthSaying)
            list.push_back(Json{{"analyte", body::name(posterior.results[i].analyte)},
                                {"draw", posterior.results[i].sample + 1},
                                {"chance", plain(posterior.spoiled[i])}});
    return list;
}

Json next(const reader::Posterior& posterior) {
    Json list = Json::array();
    for (const reader::Gain& one : posterior.gains)
        list.push_back(Json{{"test", one.test},
                            {"bits", plain(one.bits)},
                            {"error", plain(one.error)},
                            {"cost", plain(one.cost)},
                            {"bits_per_cost", plain(one.perCost())}});
    return list;
}

} // namespace

std::string weighJson(const Weighing& weighing) {
    const reader::Posterior& posterior = weighing.posterior;
    const Json json{{"caution", caution},
                    {"animals", posterior.animals},
                    {"stories", posterior.stories},
                    {"effective", plain(posterior.effective)},
                    {"rounds", posterior.rounds},
                    {"seed", weighing.seed},
                    {"seconds", plain(weighing.seconds)},
                    {"explanations", explanations(posterior)},
                    {"unlisted", plain(posterior.unlisted)},
                    {"organs", organs(posterior)},
                    {"moved", moved(posterior)},
                    {"spoiled", spoiled(posterior)},
                    {"next", next(posterior)}};
    return json.dump(2) + "\n";
}

} // namespace cistern::report
