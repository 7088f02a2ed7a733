#include "lesson/herd.h"

#include "base/chance.h"
#include "base/units.h"

#include <array>

namespace cistern::lesson {

namespace {

/// Who may be in a herd. Ranges assumed: ordinary grown animals, spread evenly; nothing in a level
/// per kg of body weight hangs on them but age.
struct Range {
    double least, most;
};
constexpr Range grown{2, 8};                       // [y]
constexpr Range dogWeight{5, 40}, catWeight{3, 6}; // [kg]

double within(base::Chance& chance, Range range) {
    return range.least + (range.most - range.least) * chance.uniform();
}

double years(double count) {
    return count * base::conversion("y", "h").value_or(0);
}

} // namespace

double grownFrom() {
    return years(grown.least);
}

body::Signalment member(body::Kind kind, std::uint64_t herd, std::uint64_t number,
                        std::optional<double> age) {
    base::Chance chance(herd, base::Purpose::patients, number);
    constexpr std::array sexes{body::Sex::female, body::Sex::spayedFemale, body::Sex::male,
                               body::Sex::neuteredMale};
    body::Signalment who;
    who.kind = kind;
    const double own = years(within(chance, grown)); // drawn always: an age changes nothing else
    who.age = age.value_or(own);
    who.weight = within(chance, kind == body::Kind::dog ? dogWeight : catWeight);
    who.sex = sexes[static_cast<std::size_t>(chance.uniform() * sexes.size())];
    const auto bits = [&] { return static_cast<std::uint64_t>(chance.uniform() * 4294967296.0); };
    const std::uint64_t high = bits();
    who.seed = high << 32 | bits();
    return who;
}

} // namespace cistern::lesson
