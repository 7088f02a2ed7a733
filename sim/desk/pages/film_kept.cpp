#include "desk/pages/film_kept.h"

#include <nlohmann/json.hpp>

#include <bit>
#include <charconv>
#include <cstdint>
#include <stdexcept>

namespace cistern::desk {

namespace {

using nlohmann::json;

json toJson(const lesson::FilmTally& tally) {
    json told = json::array();
    for (const lesson::Told& one : tally.told())
        told.push_back({{"cell", std::to_string(one.cell)},
                        {"said", lab::name(one.said)},
                        {"truly", lab::name(one.truly)},
                        {"doubtful", one.doubtful},
                        {"x", one.x},
                        {"y", one.y}});
    return {{"end", tally.end()}, {"joined", tally.joined()}, {"told", std::move(told)}};
}

lesson::Told toldFrom(const json& from) {
    const auto kind = [&](const char* key) {
        return lab::filmCellNamed(from.at(key).get<std::string>()).value();
    };
    lesson::Told one{kind("truly"),
                     kind("said"),
                     from.at("doubtful").get<bool>(),
                     0,
                     from.at("x").get<double>(),
                     from.at("y").get<double>()};
    const std::string cell = from.at("cell").get<std::string>();
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), one.cell);
    if (error != std::errc{} || end != cell.data() + cell.size())
        throw std::invalid_argument("no cell");
    return one;
}

lesson::FilmTally tallyFrom(const json& from) {
    lesson::FilmTally tally(from.at("end").get<int>(), from.at("joined").get<bool>());
    for (const json& one : from.at("told"))
        if (!tally.add(toldFrom(one)).empty()) throw std::invalid_argument("no tally");
    return tally;
}

} // namespace

std::string fingerprint(const lab::Slide& slide) {
    std::uint64_t hash = 14695981039346656037u; // FNV-1a, 64 bits
    const auto add = [&](double value) {
        const auto bits = std::bit_cast<std::uint64_t>(value);
        for (int i = 0; i < 64; i += 8) hash = (hash ^ (bits >> i & 255)) * 1099511628211u;
    };
    for (const double one :
         {slide.red, slide.white, slide.platelets, slide.clumps, slide.nucleated, slide.toxic,
          slide.aged, slide.thickness, slide.drag, slide.rouleaux, slide.agglutinated})
        add(one);
    for (const double one : slide.share) add(one);
    return std::to_string(slide.seed) + "." + std::to_string(hash);
}

std::string toText(const FilmWork& work, const lab::Slide& slide) {
    json before = json::array();
    for (const lesson::FilmTally& one : work.before) before.push_back(toJson(one));
    const json all{{"cistern film", 1},
                   {"slide", fingerprint(slide)},
                   {"marked", work.marked},
                   {"before", std::move(before)},
                   {"tally", toJson(work.tally)}};
    return all.dump(1) + "\n";
}

std::optional<FilmWork> filmWork(const std::string& text, const lab::Slide& slide) {
    try {
        const json all = json::parse(text);
        if (all.at("slide") != fingerprint(slide)) return std::nullopt;
        FilmWork work;
        for (const json& one : all.at("before")) work.before.push_back(tallyFrom(one));
        work.tally = tallyFrom(all.at("tally"));
        work.marked = all.at("marked").get<bool>() && work.tally.counted() > 0;
        return work;
    } catch (const std::exception&) {
        return std::nullopt; // another hand was in the file: the count begins anew
    }
}

} // namespace cistern::desk
