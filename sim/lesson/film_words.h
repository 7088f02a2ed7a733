#pragma once
#include "lesson/film_tally.h"

#include <string>

namespace cistern::lesson {

/// What sentences about tallies are made of; for the files of this folder only.

/// "14 bands", "1 band", "no bands", "9 bands and younger".
std::string counted(int count, TallyClass kind, bool joined);
/// "8 %", "0.4 %", "31 %", from a share 0..1.
std::string shareWords(double share);
/// How often something of this chance comes: "in most pairs", "in about 1 of 4 pairs"
std::string howOften(double chance, const std::string& ofWhat);

/// Metamyelocytes added to bands.
template<class Number>
std::array<Number, tallyClassCount> joinedUp(std::array<Number, tallyClassCount> values) {
    constexpr auto band = static_cast<std::size_t>(TallyClass::band);
    constexpr auto younger = static_cast<std::size_t>(TallyClass::metamyelocyte);
    values[band] += values[younger];
    values[younger] = 0;
    return values;
}

} // namespace cistern::lesson
