#include "lesson/film_words.h"

#include "base/text.h"

namespace cistern::lesson {

std::string counted(int count, TallyClass kind, bool joined) {
    const std::string plural(name(kind, joined));
    if (count != 1) return (count == 0 ? "no" : std::to_string(count)) + " " + plural;
    if (joined && kind == TallyClass::band) return "1 band or younger";
    return "1 " + plural.substr(0, plural.size() - 1);
}

std::string shareWords(double share) {
    constexpr double tenths = 10; // [%] below which a decimal is worth its place
    const double percent = 100 * share;
    std::string text = base::rounded(percent, percent < tenths ? 0.1 : 1.);
    if (text.ends_with(".0")) text.erase(text.size() - 2);
    return text == "0" && share > 0 ? "less than 0.1 %" : text + " %";
}

std::string howOften(double chance, const std::string& ofWhat) {
    constexpr double nearlyAll = 0.9, most = 0.6, half = 0.4, hardlyEver = 0.001;
    if (chance > nearlyAll) return "in nearly all " + ofWhat;
    if (chance > most) return "in most " + ofWhat;
    if (chance > half) return "in about half of all " + ofWhat;
    if (chance < hardlyEver) return "in fewer than 1 of 1000 " + ofWhat;
    const double many = 1 / chance;
    constexpr double few = 20; // up to here to the unit, beyond to one digit
    return "in about 1 of " + (many < few ? base::rounded(many, 1) : base::significant(many, 1)) +
           " " + ofWhat;
}

} // namespace cistern::lesson
