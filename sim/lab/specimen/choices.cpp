#include "lab/specimen/choices.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <span>
#include <stdexcept>

namespace cistern::lab {

namespace {

/// A number at its own place, or a word of a list.
struct Knob {
    std::string name, meaning, allowed;
    std::function<std::string()> now;
    std::function<void(const std::string&)> set;
    std::vector<std::string> words{};
    const Allowed* number = nullptr;
    std::function<double()> value{};
};

[[noreturn]] void refuse(const std::string& name, const std::string& found,
                         const std::string& allowed) {
    throw std::invalid_argument("The " + name + " cannot be \"" + found +
                                "\"; allowed: " + allowed + ".");
}

/// In the unit in which people write it.
double shownAmount(double value, const Allowed& allowed) {
    return value *
           (allowed.shown.empty() ? 1 : base::conversion(allowed.unit, allowed.shown).value_or(1));
}

std::string amount(double value, const Allowed& allowed) {
    std::string text = base::rounded(shownAmount(value, allowed), 0.1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return allowed.shown.empty() ? text : text + " " + base::shown(allowed.shown);
}

double read(const std::string& name, const std::string& text, const Allowed& allowed) {
    const auto quantity = base::readQuantity(text);
    if (!quantity) refuse(name, text, std::string(allowed.words));
    const std::string unit = quantity->unit == "°C" ? "Cel" : quantity->unit;
    const std::string written = unit.empty() ? std::string(allowed.shown) : unit;
    const auto factor =
        written.empty() ? std::optional(1.0) : base::conversion(written, allowed.unit);
    const double value = quantity->value * factor.value_or(std::nan(""));
    if (!(value >= allowed.least && value <= allowed.most))
        refuse(name, text, std::string(allowed.words));
    return value;
}

Knob number(std::string name, double& at, const Allowed& allowed, std::string meaning) {
    return {name,
            std::move(meaning),
            std::string(allowed.words),
            [&at, &allowed] { return amount(at, allowed); },
            [&at, &allowed, name](const std::string& text) { at = read(name, text, allowed); },
            {},
            &allowed,
            [&at, &allowed] { return shownAmount(at, allowed); }};
}

Knob count(std::string name, int& at, const Allowed& allowed, std::string meaning) {
    return {name,
            std::move(meaning),
            std::string(allowed.words),
            [&at] { return std::to_string(at); },
            [&at, &allowed, name](const std::string& text) {
                const double value = read(name, text, allowed);
                if (value != std::floor(value))
                    refuse(name, text, "a whole number, " + std::string(allowed.words));
                at = static_cast<int>(value);
            },
            {},
            &allowed,
            [&at, &allowed] { return shownAmount(at, allowed); }};
}

std::string listed(std::span<const std::string_view> words) {
    return base::listed(std::vector<std::string>(words.begin(), words.end()));
}

Knob word(std::string name, std::span<const std::string_view> words, std::string meaning,
          std::function<std::string()> now, std::function<void(std::size_t)> set) {
    const auto choose = [=](const std::string& text) {
        const auto at = std::find(words.begin(), words.end(), text);
        if (at == words.end()) refuse(name, text, listed(words));
        set(static_cast<std::size_t>(at - words.begin()));
    };
    return {name,   std::move(meaning),          listed(words), std::move(now),
            choose, {words.begin(), words.end()}};
}

std::string orderOf(const Handling& handling) {
    std::string text;
    for (const Tube& tube : handling.tubes) text += (text.empty() ? "" : ", ") + tube.name;
    return text;
}

/// Fills the tubes in another order: every one of them, parted by commas.
void reorder(Handling& handling, const std::string& text) {
    std::vector<Tube> tubes;
    std::string rest = text + ",";
    for (std::size_t comma; (comma = rest.find(',')) != std::string::npos;
         rest.erase(0, comma + 1)) {
        std::string name = rest.substr(0, comma);
        name.erase(0, name.find_first_not_of(' '));
        name.erase(name.find_last_not_of(' ') + 1);
        const Tube* tube = handling.tube(name);
        if (!tube || std::any_of(tubes.begin(), tubes.end(),
                                 [&](const Tube& one) { return one.name == name; }))
            refuse("order", text, "each of " + orderOf(handling) + " once, parted by commas");
        tubes.push_back(*tube);
    }
    if (tubes.size() < handling.tubes.size())
        refuse("order", text, "each of " + orderOf(handling) + " once, parted by commas");
    handling.tubes = std::move(tubes);
}

void addTube(std::vector<Knob>& knobs, Tube& tube) {
    const std::string of = tube.name + " ";
    knobs.push_back(
        number(of + "fill", tube.fill, fillAllowed, "blood up to this share of the mark"));
    knobs.push_back(count(of + "inversions", tube.inversions, inversionAllowed,
                          "turned over at once after filling"));
    if (tube.name == "serum") {
        static constexpr std::array<std::string_view, 2> sources{"nothing", toppedFrom[0]};
        knobs.push_back(word(
            of + "topped from", sources, "what it was topped up from",
            [&tube] { return tube.toppedFrom.empty() ? "nothing" : tube.toppedFrom; },
            [&tube](std::size_t at) { tube.toppedFrom = at ? std::string(sources[at]) : ""; }));
    }
    if (tube.name == "edta") return; // counted whole
    if (tube.name == "serum")
        knobs.push_back(number(of + "clot", tube.clot, clotAllowed, "standing before the spin"));
    knobs.push_back(number(of + "spin", tube.rcf, rcfAllowed, "pull of the spin, times g"));
    knobs.push_back(number(of + "spin minutes", tube.minutes, spinAllowed, "how long it is spun"));
}

std::vector<Knob> knobs(Handling& handling) {
    std::vector<Knob> all;
    all.push_back(word(
        "vein", veins, "where the needle goes in", [&] { return handling.vein; },
        [&](std::size_t at) { handling.vein = std::string(veins[at]); }));
    all.push_back(count("attempts", handling.attempts, attemptAllowed, "tries until blood came"));
    if (handling.tubes.size() > 1)
        all.push_back({"order", "in which the tubes are filled", "the same tubes, parted by commas",
                       [&] { return orderOf(handling); },
                       [&](const std::string& text) { reorder(handling, text); }});
    for (Tube& tube : handling.tubes) addTube(all, tube);
    all.push_back(number("unseparated", handling.unseparated, waitAllowed,
                         "serum left on its cells after the spin"));
    all.push_back(number("temperature", handling.temperature, roomAllowed, "where tubes wait"));
    all.push_back(word(
        "light", lights, "that falls on the serum",
        [&] { return std::string(name(handling.light)); },
        [&](std::size_t at) { handling.light = *lightNamed(lights[at]); }));
    all.push_back(number("light for", handling.lightFor, waitAllowed, "how long it stands in it"));
    all.push_back(number("film after", handling.filmAfter, waitAllowed,
                         "until the film is made and counted"));
    return all;
}

} // namespace

std::vector<Choice> choices(const Handling& handling) {
    Handling copy = handling;
    std::vector<Choice> list;
    for (const Knob& knob : knobs(copy))
        list.push_back({knob.name, knob.now(), knob.meaning, knob.allowed, knob.words, knob.number,
                        knob.value ? knob.value() : 0});
    return list;
}

Handling handledOtherwise(Handling handling, const std::string& name, const std::string& value) {
    std::vector<std::string> names;
    for (const Knob& knob : knobs(handling)) {
        if (knob.name == name) {
            knob.set(value);
            return handling;
        }
        names.push_back(knob.name);
    }
    const std::string near = base::nearest(name, names);
    throw std::invalid_argument("Nothing about this draw is called \"" + name + "\"" +
                                (near.empty() ? "; there are " + base::listed(names, "and") + "."
                                              : "; did you mean \"" + near + "\"?"));
}

} // namespace cistern::lab
