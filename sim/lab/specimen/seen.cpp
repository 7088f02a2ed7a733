#include "lab/specimen/seen.h"

namespace cistern::lab {

namespace {

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

bool clotSeen(const SpecimenLaws& laws, const Handled& handled) {
    return handled.cells.clot >= laws.mixing.clotVisibleFrom;
}

bool fibrinMet(const SpecimenLaws& laws, double drawn) {
    return 1 - drawn >= laws.spin.shortFrom;
}

std::vector<std::string> seenInTubes(const SpecimenLaws& laws, body::Kind kind,
                                     const Handled& handled, double drawn, const Used& used) {
    std::vector<std::string> lines;
    const auto say = [&](bool so, std::string line) {
        if (so) lines.push_back(std::move(line));
    };
    const double free = handled.serum.color.hemolysis;
    say(used.serum && free >= pinkFrom, hemolysis(kind, free, used));
    say(used.serum && fibrinMet(laws, drawn), "The sample probe reported a short sample: fibrin.");
    say(used.blood && clotSeen(laws, handled), "A thread of clot hangs in the EDTA tube.");
    return lines;
}

} // namespace cistern::lab
