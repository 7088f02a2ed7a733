#include "desk/tiles.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>

namespace cistern::desk {

namespace {

constexpr double thousandth = 1e-3, hundredth = 1e-2;

double scaleOf(const TileName& name) {
    return name.scale * thousandth;
}
/// Side of a tile on the slide [um].
double sideOf(const TileName& name) {
    return tileSide / scaleOf(name);
}

drawing::Pixels drawn(drawing::film::Stage& stage, const TileName& name) {
    const int part = name.coarse ? coarser : 1;
    const double scale = scaleOf(name) / part, side = sideOf(name);
    return stage.seen(name.x * side, name.y * side, tileSide / part, tileSide / part,
                      drawing::film::opticsOf(name.power, static_cast<float>(scale),
                                              static_cast<float>(name.focus * hundredth)));
}

} // namespace

Box placeOf(const TileName& name, const Microscope& microscope) {
    // Whole pixels, counted from one corner of the slide: no gap between neighbors.
    const double x = std::round(microscope.box.x - microscope.left() * scaleOf(name));
    const double y = std::round(microscope.box.y - microscope.top() * scaleOf(name));
    return {x + name.x * tileSide, y + name.y * tileSide, tileSide, tileSide};
}

std::vector<TileName> tilesOf(const Microscope& microscope, int around) {
    TileName name{microscope.number, microscope.power,
                  static_cast<int>(std::lround(microscope.scale() / thousandth)),
                  static_cast<int>(std::lround(microscope.focus / hundredth))};
    std::vector<TileName> all;
    if (!microscope.slide || name.scale <= 0) return all;
    // A pixel more all round, for places are rounded to whole pixels.
    const double side = sideOf(name), pixel = 1 / microscope.scale();
    const double left = microscope.left() - pixel, top = microscope.top() - pixel;
    const double right = microscope.left() + microscope.width + pixel,
                 bottom = microscope.top() + (microscope.box.height + 1) * pixel;
    const auto tile = [&](double at) { return static_cast<int>(std::floor(at / side)); };
    for (name.y = tile(top) - around; name.y <= tile(bottom) + around; ++name.y)
        for (name.x = tile(left) - around; name.x <= tile(right) + around; ++name.x)
            all.push_back(name);
    return all;
}

Tiles::Tiles(int threads) {
    for (int i = 0; i < std::max(1, threads); ++i) threads_.emplace_back([this] { work(); });
}

Tiles::~Tiles() {
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    wanted_.notify_all();
    for (std::thread& one : threads_) one.join();
}

void Tiles::look(const Microscope& microscope) {
    std::vector<TileName> seen = tilesOf(microscope), near = tilesOf(microscope, 1);
    // The middle of what is seen comes first.
    const auto off = [&](const TileName& name) {
        const double side = sideOf(name);
        return std::hypot((name.x + .5) * side - microscope.middle.x,
                          (name.y + .5) * side - microscope.middle.y);
    };
    const auto nearer = [&](const TileName& a, const TileName& b) { return off(a) < off(b); };
    std::stable_sort(seen.begin(), seen.end(), nearer);
    std::stable_sort(near.begin(), near.end(), nearer);
    const std::lock_guard lock(mutex_);
    asked_.clear();
    const auto ask = [&](const TileName& name) {
        if (!given_.contains(name) && !drawing_.contains(name) &&
            std::find(asked_.begin(), asked_.end(), name) == asked_.end())
            asked_.push_back(name);
    };
    for (TileName name : seen)
        if (!given_.contains(name)) {
            name.coarse = true;
            ask(name);
        }
    for (const TileName& name : seen) ask(name);
    for (const TileName& name : near) ask(name);
    seen_ = microscope;
    if (!asked_.empty()) wanted_.notify_all();
}

std::vector<Tile> Tiles::take(std::size_t most) {
    const std::lock_guard lock(mutex_);
    const std::size_t count = std::min(most, ready_.size());
    std::vector<Tile> out(
        std::make_move_iterator(ready_.begin()),
        std::make_move_iterator(ready_.begin() + static_cast<std::ptrdiff_t>(count)));
    ready_.erase(ready_.begin(), ready_.begin() + static_cast<std::ptrdiff_t>(count));
    return out;
}

void Tiles::forget(const TileName& name) {
    const std::lock_guard lock(mutex_);
    given_.erase(name);
}

bool Tiles::behind() {
    const std::lock_guard lock(mutex_);
    return !asked_.empty() || !drawing_.empty() || !ready_.empty();
}

double Tiles::secondsEach() {
    const std::lock_guard lock(mutex_);
    return sharp_ > 0 ? spent_ / static_cast<double>(sharp_) : 0;
}

void Tiles::work() {
    using Clock = std::chrono::steady_clock;
    std::optional<drawing::film::Stage> stage;
    unsigned number = 0;
    while (true) {
        TileName name;
        std::shared_ptr<const lab::Slide> slide;
        {
            std::unique_lock lock(mutex_);
            wanted_.wait(lock, [&] { return over_ || !asked_.empty(); });
            if (over_) return;
            name = asked_.front();
            asked_.erase(asked_.begin());
            drawing_.insert(name);
            slide = seen_.slide;
        }
        if (!stage || number != name.slide) {
            stage.emplace(*slide);
            number = name.slide;
        }
        const auto begun = Clock::now();
        Tile tile{name, drawn(*stage, name)};
        const double spent = std::chrono::duration<double>(Clock::now() - begun).count();
        const std::lock_guard lock(mutex_);
        if (!name.coarse) {
            spent_ += spent;
            ++sharp_;
        }
        drawing_.erase(name);
        given_.insert(name);
        ready_.push_back(std::move(tile));
    }
}

} // namespace cistern::desk
