#include "lab/specimen/seen.h"

#include "base/text.h"

namespace cistern::lab {

namespace {

constexpr double shortFill = 0.75; // of its mark: common practice refuses less

std::string share(double fill) {
    return base::rounded(100 * fill, 1) + " % of its mark";
}

std::string hemolysis(body::Kind kind, double free, const Used& used) {
    std::string line =
        std::string("The serum is ") + (free >= redFrom ? "red" : "pink") + " to the eye: ";
    if (used.enzymes) line += "AST and LDH read high";
    if (used.enzymes && used.potassium) line += ", while ";
    if (used.potassium) line += "potassium of most " + std::string(name(kind)) + "s barely moves";
    if (!used.enzymes && !used.potassium) line += "cells broke in the tube or before it";
    return line + ".";
}

} // namespace

std::vector<std::string> seen(const SpecimenLaws& laws, body::Kind kind, const Handling& handling,
                              const Handled& handled, double drawn, const Used& used) {
    std::vector<std::string> lines;
    const auto say = [&](bool so, std::string line) {
        if (so) lines.push_back(std::move(line));
    };
    const Tube* serum = handling.tube("serum");
    const Tube* edta = handling.tube("edta");
    const Tube* citrate = handling.tube("citrate");
    const double free = handled.serum.color.hemolysis;
    say(used.serum && free >= pinkFrom, hemolysis(kind, free, used));
    say(used.serum && 1 - drawn >= laws.spin.shortFrom,
        "The sample probe reported a short sample: fibrin.");
    const double onCells = serum ? serum->clot + handling.unseparated : 0;
    say(used.serum && onCells >= laws.wait.lateFrom,
        "The serum stood " + base::rounded(60 * onCells, 1) +
            " min on its cells before the two were parted.");
    say((used.blood || used.film) && edta && edta->fill < shortFill,
        "The EDTA tube is filled to " + (edta ? share(edta->fill) : "") + ".");
    say((used.blood || used.film) && handled.cells.clot >= laws.mixing.clotVisibleFrom,
        "A thread of clot hangs in the EDTA tube.");
    say(used.film && handled.cells.clumped >= laws.mixing.clumpVisibleFrom,
        "Platelets lie in clumps at the feathered edge of the film.");
    say(used.film && handled.cells.old >= laws.wait.vacuolesFrom,
        "The film was made from old blood: white cells hold vacuoles.");
    say(used.citrate && citrate && citrate->fill < shortFill,
        "The citrate tube is filled to " + (citrate ? share(citrate->fill) : "") + ".");
    return lines;
}

} // namespace cistern::lab
