#include "lab/specimen/handling_words.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <array>

namespace cistern::lab {

namespace {

/// "95 min", "6.5 h".
std::string span(double hours) {
    constexpr double minutesPerHour = 60, toldInMinutes = 2; // [h]
    if (hours < toldInMinutes) return base::rounded(hours * minutesPerHour, 1) + " min";
    const bool whole = base::rounded(hours, 0.1) == base::rounded(hours, 1) + ".0";
    return base::rounded(hours, whole ? 1 : 0.1) + " h";
}

std::string shownName(const std::string& tube) {
    return tube == "edta" ? "EDTA" : tube;
}

/// What is unusual about one tube, each beginning with its name.
void addTube(std::vector<std::string>& lines, const Tube& tube) {
    const Tube usual = usualTube(tube.name);
    const std::string which = shownName(tube.name) + (tube.name == "urine" ? "" : " tube");
    if (!tube.toppedFrom.empty())
        lines.push_back(which + " topped up from the " + shownName(tube.toppedFrom) + " tube");
    if (tube.fill != usual.fill)
        lines.push_back(which + " " + base::rounded(100 * tube.fill, 1) + " % full");
    if (tube.inversions != usual.inversions)
        lines.push_back(which +
                        (tube.inversions == 0 ? " not turned over"
                         : tube.inversions == 1
                             ? " turned over once"
                             : " turned over " + std::to_string(tube.inversions) + " times"));
    if (tube.clot != usual.clot)
        lines.push_back(which + (tube.name == "serum"
                                     ? " " + span(tube.clot) + " on the clot"
                                     : " " + span(tube.clot) + " before the spin"));
    if (tube.rcf != usual.rcf || tube.minutes != usual.minutes)
        lines.push_back(tube.minutes == 0 || tube.rcf == 0
                            ? which + " not spun"
                            : which + " spun at " + base::rounded(tube.rcf, 10) + " g for " +
                                  base::rounded(tube.minutes, 1) + " min");
}

/// Place in the order of draw, in which no tube carries its additive into one that it spoils.
/// Common practice.
std::size_t place(const Tube& tube) {
    constexpr std::array<std::string_view, 5> order{"citrate", "serum", "heparin", "edta",
                                                    "fluoride"};
    return static_cast<std::size_t>(std::find(order.begin(), order.end(), tube.name) -
                                    order.begin());
}

} // namespace

std::vector<std::string> said(const Handling& handling) {
    const Handling usual;
    std::vector<std::string> lines;
    if (handling.attempts != usual.attempts)
        lines.push_back(std::to_string(handling.attempts) + " attempts at the vein");
    std::vector<Tube> blood;
    for (const Tube& tube : handling.tubes)
        if (tube.name != "urine") blood.push_back(tube);
    const auto earlier = [](const Tube& a, const Tube& b) { return place(a) < place(b); };
    if (!std::is_sorted(blood.begin(), blood.end(), earlier)) {
        std::vector<std::string> names;
        for (const Tube& tube : blood) names.push_back(shownName(tube.name));
        lines.push_back("filled in this order: " + base::listed(names, "and"));
    }
    for (const Tube& tube : handling.tubes) addTube(lines, tube);
    if (handling.unseparated != usual.unseparated)
        lines.push_back(span(handling.unseparated) + " on its cells after the spin");
    if (handling.temperature != usual.temperature)
        lines.push_back("kept at " + base::rounded(handling.temperature, 1) + " " +
                        base::shown("Cel"));
    if (handling.light != usual.light || handling.lightFor != usual.lightFor)
        lines.push_back("serum " + span(handling.lightFor) +
                        (handling.light == Light::dark  ? " in the dark"
                         : handling.light == Light::sun ? " in the sun"
                                                        : " in the light of the room"));
    if (handling.filmAfter != usual.filmAfter)
        lines.push_back("film and count after " + span(handling.filmAfter));
    return lines;
}

Handling shownPart(const Handling& handling) {
    Handling shown;
    shown.vein = handling.vein;
    shown.fasted = handling.fasted;
    for (const Tube& tube : handling.tubes) {
        shown.tubes.push_back(usualTube(tube.name));
        shown.tubes.back().fill = tube.fill;
        shown.tubes.back().clot = tube.clot;
    }
    std::sort(shown.tubes.begin(), shown.tubes.end(),
              [](const Tube& a, const Tube& b) { return place(a) < place(b); });
    shown.unseparated = handling.unseparated;
    shown.filmAfter = handling.filmAfter;
    return shown;
}

std::vector<std::string> shownByTubes(const Handling& handling) {
    return said(shownPart(handling));
}

std::string inOne(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += (text.empty() ? "" : "; ") + line;
    return text;
}

} // namespace cistern::lab
