#include "drawing/film/granules.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

namespace mark = lab::mark;
using lab::FilmCell;

// Each part of a cell has a stream of its own, so that one more grain moves nothing else.
enum Stream : std::uint32_t { grainStream = 2, holeStream = 3, bodyStream = 4, traitStream = 5 };

// Amounts below were chosen by eye beside the facts of Harvey, and Stockham and Scott, from memory.

bool isCat(const Cell& cell) {
    return cell.animal == body::Kind::cat;
}
bool isNeutrophil(const Cell& cell) {
    return cell.kind == FilmCell::segmented || cell.kind == FilmCell::band ||
           cell.kind == FilmCell::metamyelocyte;
}
float toxicity(const Cell& cell) {
    return isNeutrophil(cell) && cell.has(mark::toxic) ? clamped(cell.blue) : 0;
}

/// Somewhere within a cell, as likely on any part of its area from one radius to another.
Bead somewhere(Dice& dice, float from, float to) {
    const float angle = dice.angle();
    const float off = std::sqrt(dice.between(from * from, to * to));
    return {off * std::cos(angle), off * std::sin(angle), 0};
}

/// What chance says of an oval. In braces its draws keep their order with every compiler.
struct Oval {
    float along, across, angle, dye;
};
Grain ovalAt(const Bead& place, const Oval& oval) {
    return {place.x, place.y, oval.along, oval.across, std::cos(oval.angle), std::sin(oval.angle),
            oval.dye};
}
Grain roundAt(const Bead& place, float half, float dye) {
    return {place.x, place.y, half, half, 1, 0, dye};
}

bool clear(const std::vector<Grain>& grains, const Bead& place, float half, float share) {
    return std::none_of(grains.begin(), grains.end(), [&](const Grain& other) {
        const float dx = other.x - place.x, dy = other.y - place.y;
        const float apart = share * (other.reach() + half);
        return dx * dx + dy * dy < apart * apart;
    });
}

/// Granules of a dog's eosinophil: a few huge ones, or some, or many small ones.
std::vector<Grain> rounds(const Cell& cell, const NucleusEdge& nucleus, Dice& dice) {
    const bool empty = cell.has(mark::emptyGranules);
    const float sort = dice.share();
    int count = sort < .12F  ? dice.whole(4, 9)
                : sort < .5F ? dice.whole(34, 60)
                             : dice.whole(80, 130);
    float least = sort < .12F ? .6F : sort < .5F ? .36F : .28F;
    float most = sort < .12F ? 1.4F : sort < .5F ? .9F : .58F;
    if (empty) {
        count = dice.whole(24, 40);
        least = .4F;
        most = .95F;
    }
    std::vector<Grain> made;
    constexpr int tries = 30;
    for (int i = 0; i < count; ++i)
        for (int attempt = 0; attempt < tries; ++attempt) {
            const float towardsSmall = count < 10 ? 1 : dice.share();
            const float half = least + (most - least) * dice.share() * towardsSmall;
            const Bead place = somewhere(dice, 0, cell.radius - half - .25F);
            const float over = empty ? .1F : -.3F; // of the nucleus's edge
            if (nucleus.at(place.x, place.y).distance < over) continue;
            if (!clear(made, place, half, empty ? .98F : .9F)) continue;
            made.push_back(roundAt(place, half, dice.between(.52F, .78F)));
            break;
        }
    return made;
}

/// Rods of a cat's eosinophil fill the cell; of some places tried, each takes the emptiest.
std::vector<Grain> rods(const Cell& cell, const NucleusEdge& nucleus, Dice& dice) {
    std::vector<Grain> made;
    const float fold = cell.radius * cell.radius / (6.5F * 6.5F);
    const int count = static_cast<int>(static_cast<float>(dice.whole(270, 330)) * fold);
    constexpr int tries = 5;
    for (int i = 0; i < count; ++i) {
        Bead best;
        float most = -1;
        for (int attempt = 0; attempt < tries; ++attempt) {
            const Bead place = somewhere(dice, 0, cell.radius - .45F);
            float room = nucleus.at(place.x, place.y).distance < -.4F ? .05F : 9; // few over it
            for (const Grain& other : made) {
                if (room <= most) break;
                const float dx = other.x - place.x, dy = other.y - place.y;
                room = std::min(room, dx * dx + dy * dy);
            }
            if (room > most) {
                most = room;
                best = place;
            }
        }
        made.push_back(ovalAt(best, {dice.between(.44F, .64F), dice.between(.16F, .21F),
                                     dice.between(0, pi), dice.between(.55F, .85F)}));
    }
    return made;
}

/// Few dark granules of a dog's basophil, most of them beside the nucleus.
std::vector<Grain> darks(const Cell& cell, const NucleusEdge& nucleus, Dice& dice) {
    const int count = dice.happens(.7) ? dice.whole(10, 22) : dice.whole(22, 40);
    std::vector<Grain> made;
    constexpr int tries = 20;
    for (int i = 0; i < count; ++i)
        for (int attempt = 0; attempt < tries; ++attempt) {
            const float half = dice.between(.22F, .40F);
            const Bead place = somewhere(dice, .3F * cell.radius, cell.radius - half - .3F);
            if (nucleus.at(place.x, place.y).distance < .05F && !dice.happens(.15)) continue;
            if (!clear(made, place, half, .8F)) continue;
            made.push_back(roundAt(place, half, dice.between(.75F, 1.15F)));
            break;
        }
    return made;
}

/// Packed pale ovals of a cat's basophil, over the nucleus too; one in fifty is still young, dark.
std::vector<Grain> lavenders(const Cell& cell, Dice& dice) {
    const float fold = cell.radius * cell.radius / (7 * 7.F);
    const int count = static_cast<int>(static_cast<float>(dice.whole(120, 165)) * fold);
    std::vector<Grain> made;
    constexpr int tries = 8;
    for (int i = 0; i < count; ++i) {
        const float half = dice.between(.38F, .54F);
        Bead place;
        for (int attempt = 0; attempt < tries; ++attempt) {
            place = somewhere(dice, 0, cell.radius - .5F);
            if (clear(made, place, half, .72F)) break;
        }
        const float across = half * dice.between(.62F, .8F), angle = dice.between(0, pi);
        const float dye = dice.happens(.02) ? 1.5F : dice.between(.18F, .36F);
        made.push_back(ovalAt(place, {half, across, angle, dye}));
    }
    return made;
}

std::vector<Grain> specks(const Cell& cell, const NucleusEdge& nucleus, Dice& dice) {
    std::vector<Grain> made;
    const int count = cell.kind == FilmCell::lymphocyte ? dice.whole(4, 8) : dice.whole(10, 24);
    constexpr int tries = 12;
    const float to = cell.radius - .35F;
    for (int i = 0; i < count; ++i)
        for (int attempt = 0; attempt < tries; ++attempt) {
            const Bead place = somewhere(dice, 0, to);
            if (nucleus.at(place.x, place.y).distance < .12F) continue;
            const float half = dice.between(.14F, .22F);
            made.push_back(roundAt(place, half, dice.between(.5F, .9F)));
            break;
        }
    return made;
}

/// Holes of these sizes, beside the nucleus unless there is no room.
void pierce(std::vector<Grain>& made, int count, float least, float most, const Cell& cell,
            const NucleusEdge& nucleus, Dice& dice) {
    constexpr int tries = 6;
    for (int i = 0; i < count; ++i) {
        const float half = dice.between(least, most);
        Bead place;
        for (int attempt = 0; attempt < tries; ++attempt) {
            place = somewhere(dice, .2F * cell.radius, .95F * cell.radius - half);
            if (nucleus.at(place.x, place.y).distance > .5F * half && clear(made, place, half, .9F))
                break;
        }
        made.push_back(roundAt(place, half, dice.between(.75F, 1)));
    }
}

/// Traits that are settled by a cell's seed alone, the n-th of them.
bool trait(const Cell& cell, int which, double chance) {
    Dice dice(cell.seed, traitStream);
    for (int i = 0; i < which; ++i) dice.share();
    return dice.happens(chance);
}

} // namespace

Granules granulesOf(const Cell& cell) {
    switch (cell.kind) {
    case FilmCell::eosinophil:
        if (cell.has(mark::emptyGranules)) return Granules::empty;
        return isCat(cell) ? Granules::rods : Granules::round;
    case FilmCell::basophil:
        return isCat(cell) ? Granules::lavender : Granules::dark;
    case FilmCell::lymphocyte:
        return trait(cell, 0, .08) ? Granules::fine : Granules::none;
    default:
        return toxicity(cell) > .75F && trait(cell, 0, .3) ? Granules::fine : Granules::none;
    }
}

std::vector<Grain> grains(const Cell& cell, const NucleusEdge& nucleus) {
    Dice dice(cell.seed, grainStream);
    switch (granulesOf(cell)) {
    case Granules::none:
        return {};
    case Granules::round:
    case Granules::empty:
        return rounds(cell, nucleus, dice);
    case Granules::rods:
        return rods(cell, nucleus, dice);
    case Granules::dark:
        return darks(cell, nucleus, dice);
    case Granules::lavender:
        return lavenders(cell, dice);
    case Granules::fine:
        break;
    }
    return specks(cell, nucleus, dice);
}

bool hasHoles(const Cell& cell) {
    if (cell.has(mark::vacuoles)) return true;
    return cell.kind == FilmCell::monocyte ? trait(cell, 1, .75) : toxicity(cell) > 0;
}

std::vector<Grain> holes(const Cell& cell, const NucleusEdge& nucleus) {
    std::vector<Grain> made;
    Dice dice(cell.seed, holeStream);
    if (cell.kind == FilmCell::eosinophil && !isCat(cell) && !cell.has(mark::emptyGranules) &&
        dice.happens(.3))
        pierce(made, dice.whole(1, 4), .3F, .6F, cell, nucleus, dice); // a granule washed out
    if (!hasHoles(cell)) return made;
    if (cell.kind == FilmCell::monocyte) {
        pierce(made, dice.whole(2, 9), .24F, .75F, cell, nucleus, dice);
        return made;
    }
    if (cell.has(mark::vacuoles)) // stood long in the tube
        pierce(made, dice.whole(4, 9), .35F, .85F, cell, nucleus, dice);
    if (const float toxic = toxicity(cell); toxic > 0) {
        const int foam = static_cast<int>(8 + 44 * toxic);
        const std::size_t first = made.size();
        pierce(made, foam, .16F, .22F + .34F * toxic, cell, nucleus, dice);
        for (std::size_t i = first; i < made.size(); ++i) made[i].dye *= dice.between(.45F, 1);
    }
    return made;
}

bool hasBodies(const Cell& cell) {
    if (cell.has(mark::doehle)) return true;
    const float toxic = toxicity(cell);
    // In cats they come with slight illness already.
    return toxic > 0 &&
           trait(cell, 2, (isCat(cell) ? .55 : .35) + .45 * static_cast<double>(toxic));
}

std::vector<Grain> bodies(const Cell& cell, const NucleusEdge& nucleus) {
    std::vector<Grain> made;
    if (!hasBodies(cell)) return made;
    Dice dice(cell.seed, bodyStream);
    const int count = dice.whole(1, 3);
    constexpr int tries = 40;
    for (int i = 0; i < count; ++i) {
        // The place with the most room: the mark must show, whatever the nucleus leaves.
        Bead best;
        float most = -9;
        for (int attempt = 0; attempt < tries; ++attempt) {
            const Bead place = somewhere(dice, .5F * cell.radius, .86F * cell.radius);
            const float room = nucleus.at(place.x, place.y).distance;
            if (!clear(made, place, .9F, 1)) continue;
            if (room > most) {
                most = room;
                best = place;
            }
            if (room > .6F) break;
        }
        if (most < .1F) continue;
        made.push_back(ovalAt(best, {dice.between(.65F, 1.F), dice.between(.48F, .72F),
                                     dice.between(0, pi), dice.between(.22F, .32F)}));
    }
    return made;
}

NearGrains::NearGrains(const std::vector<Grain>& grains, float soft) {
    if (grains.empty()) return;
    float far = 0;
    for (const Grain& grain : grains)
        far = std::max({far, std::fabs(grain.x) + grain.reach() + soft,
                        std::fabs(grain.y) + grain.reach() + soft});
    left_ = top_ = -far;
    side_ = floored(2 * far) + 1;
    std::vector<std::vector<Grain>> squares(static_cast<std::size_t>(side_ * side_));
    for (const Grain& grain : grains) {
        const float reach = grain.reach() + soft;
        const auto place = [&](float at) { return std::clamp(floored(at + far), 0, side_ - 1); };
        for (int row = place(grain.y - reach); row <= place(grain.y + reach); ++row)
            for (int column = place(grain.x - reach); column <= place(grain.x + reach); ++column)
                squares[static_cast<std::size_t>(row * side_ + column)].push_back(grain);
    }
    for (const std::vector<Grain>& square : squares) {
        starts_.push_back(sorted_.size());
        sorted_.insert(sorted_.end(), square.begin(), square.end());
    }
    starts_.push_back(sorted_.size());
}

} // namespace cistern::drawing::film
