#include "base/text.h"
#include "base/units.h"
#include "lab/counter/checks.h"
#include "lab/draw.h"
#include "lab/specimen/seen.h"

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr double fedUntil = 8; // [h] since food; common practice is a fast of 8 to 12 h

/// What of the specimens a report makes use of.
Used used(const Draw& draw, const Report& report) {
    Used out;
    for (const Result& result : report.results) {
        const std::string& specimen = draw.bench.method(result.analyte).specimen;
        out.serum = out.serum || specimen == "serum";
        out.blood = out.blood || specimen.starts_with("EDTA");
    }
    out.potassium = report.find(Analyte::K);
    out.enzymes = report.find(Analyte::AST) || report.find(Analyte::LDH);
    return out;
}

} // namespace

std::vector<std::string> warnings(const Draw& draw, const Report& report) {
    std::vector<std::string> lines;
    const Specimen& specimen = report.specimen;
    if (specimen.seen.icterus >= yellowFrom)
        lines.push_back("The serum is yellow to the eye: icterus index " +
                        base::rounded(specimen.seen.icterus, 1) + " " + base::shown("umol/L") +
                        ".");
    if (specimen.seen.lipemia >= hazyFrom)
        lines.push_back("The serum is hazy to the eye: lipemia index " +
                        base::rounded(specimen.seen.lipemia, 0.1) + " " + base::shown("mmol/L") +
                        ".");
    const bool fed = specimen.handling.fasted && *specimen.handling.fasted < fedUntil;
    const bool minds = report.find(Analyte::bileAcids) || report.find(Analyte::urea) ||
                       report.find(Analyte::glucose) || report.find(Analyte::triglycerides) ||
                       report.find(Analyte::ammonia);
    if (fed && minds)
        lines.push_back("Drawn " + base::rounded(*specimen.handling.fasted, 1) +
                        " h after food: triglycerides, bile acids, ammonia, urea and glucose can "
                        "stand higher than after a fast.");
    const bool filmRead = report.find(Analyte::bands) || report.find(Analyte::toxic);
    if (report.blood)
        for (std::string& remark : report.blood->remarks(filmRead))
            lines.push_back(std::move(remark));
    for (std::string& line : disagreements(report)) lines.push_back(std::move(line));
    if (draw.bench.specimen)
        for (std::string& line : seenInTubes(*draw.bench.specimen, draw.animal.who.kind,
                                             draw.handled, draw.drawn, used(draw, report)))
            lines.push_back(std::move(line));
    return lines;
}

std::string hemolysisWord(const Specimen& specimen) {
    return specimen.seen.hemolysis >= redFrom    ? "red"
           : specimen.seen.hemolysis >= pinkFrom ? "pink"
                                                 : "clear";
}
std::string icterusWord(const Specimen& specimen) {
    return specimen.seen.icterus >= yellowFrom ? "yellow" : "clear";
}
std::string lipemiaWord(const Specimen& specimen) {
    return specimen.seen.lipemia >= hazyFrom ? "hazy" : "clear";
}

} // namespace cistern::lab
