#pragma once
#include "body/individual.h"
#include "lab/assay/assay.h"
#include "lab/counter/counter.h"
#include "lab/film/laws.h"
#include "lab/specimen/laws.h"

#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::lab {

enum class Units { conventional, si };

/// How an analyte is written in one unit system.
struct Writing {
    std::string unit;    ///< UCUM code: "mg/dL"
    double factor = 1;   ///< model's unit times this gives the value in `unit`
    double step = 1;     ///< results are rounded to this
    std::string loinc{}; ///< LOINC code of the analyte as this kind of quantity: "2345-7"; "" if
                         ///< none is known
};

/// Where an analyte starts counting: 0, but 1 for urine gravity, that of water. Every share of an
/// amount (b, between run, dilution, wobble) is taken of what lies above it.
constexpr double origin(body::Analyte analyte) {
    return analyte == body::Analyte::USG ? 1 : 0;
}

/// Where an analyte ends: a share of cells at all of them; the others end nowhere.
constexpr double ceiling(body::Analyte analyte) {
    return analyte == body::Analyte::toxic ? 1 : std::numeric_limits<double>::infinity();
}

/// What a spoiled specimen does to a method by chemistry; its color acts by itself. Per g/L of
/// hemoglobin, umol/L of bilirubin and mmol/L of clouding triglyceride.
struct Interference {
    double hemolysisAdds = 0; ///< in the model's unit of the analyte
    double hemolysisShare = 0, icterusShare = 0, lipemiaShare = 0; ///< of the result
};

/// How one analyte is measured. Amounts in the model's unit of the analyte.
struct Method {
    body::Analyte analyte{};
    std::string principle; ///< "kinetic, NADH at 340 nm"
    double a = 0, b = 0;   ///< standard deviation^2 = a^2 + (b x)^2, repeatability as it is stated
    double betweenRun = 0; ///< coefficient of variation of the bias of a run, 0..1
    double least = 0,
           most = 0; ///< measuring range: below prints "<", above is diluted and run again; from
                     ///< the analyte's origin on where none is a result, as in a count;
                     ///< least < most / dilution
    double dilution = 10;      ///< volume factor of the automatic dilution; 1 means none
    double dilutionSpread = 0; ///< coefficient of variation of the dilution step, 0..1
    Assay assay{};             ///< its physics; none: `a` and `b` are all that is known of it
    Interference interference{};
    bool calculated = false;     ///< not measured but computed (globulin = protein - albumin)
    bool dog = true, cat = true; ///< species in which it is run
    Writing conventional, si;
    std::string group;    ///< heading under which it is reported: "what leaks" ...
    std::string specimen; ///< "serum", "EDTA plasma", "EDTA blood", "citrate plasma", "urine"
    std::string words;    ///< the analyte's full name for people: "alanine aminotransferase"

    const Writing& writing(Units units) const { return units == Units::si ? si : conventional; }
    bool serves(body::Kind kind) const { return kind == body::Kind::dog ? dog : cat; }
};

/// Healthy middle 95 % (or limits for decisions) for a species and an age span, in the model's
/// unit.
struct Interval {
    body::Kind kind{};
    body::Analyte analyte{};
    double fromAge = 0, toAge = 1e9; ///< [h]
    double low = 0, high = 0;
    std::string source;    ///< source key
    bool decision = false; ///< limits for decisions, by judgement: not the middle 95 %
};

/// A test as it is asked for ("chemistry", "urine") and what it measures. Empty: this laboratory
/// does not run it; `missing` says so in words.
struct Test {
    std::string name;
    std::vector<body::Analyte> analytes;
    std::string missing;
    bool controls = false; ///< asks for the state of the other tests' control charts
    double cost = 1;       ///< what it costs beside PCV and protein, >= 0
};

/// An invented material that is read in each run beside the patients.
struct ControlMaterial {
    std::string name;
    double share = 0.5; ///< what it holds: of the way through the healthy interval; 2 lies one
                        ///< width above it
};

/// How the laboratory watches itself.
struct Controls {
    std::vector<ControlMaterial> materials; ///< at most 4; none: no charts are kept
    double highest = 0.8;                   ///< share of the measuring range that they stay within
    double clear = 4;        ///< standard deviations that they keep from its lower end
    std::uint64_t kept = 20; ///< runs on a chart, that of the draw the last
    std::uint64_t faultFor =
        6; ///< runs, that of the first draw among them, that a fault has lasted
};

/// Everything in the room: what can be run, how, and against which intervals.
struct Bench {
    std::vector<Method> methods;
    std::vector<Interval> intervals;
    std::vector<Test> tests;
    /// By kind: what a result counts for among results that rise and fall together, 0..1.
    std::array<double, 2> independent{1, 1};
    Photometer photometer{};
    Spectra spectra{};              ///< none: colors are seen as they are
    std::optional<Counter> counter; ///< none: blood is read as serum is, by its methods alone
    std::optional<FilmLaws> film;   ///< none: a slide shows counts alone, spread and stained well
    Controls controls{};
    std::optional<SpecimenLaws> specimen; ///< none: nothing happens to blood on its way

    const Method& method(body::Analyte analyte) const; ///< throws std::out_of_range
    const Method* find(body::Analyte analyte) const;   ///< null if there is none
    const Test* test(const std::string& name) const;   ///< null if unknown
    /// Interval for the animal's species and age at that hour; null if none is published here.
    const Interval* interval(const body::Signalment& who, double hour, body::Analyte analyte) const;
    /// Analytes of several tests, each once, in panel order: that of `methods`; of one kind of
    /// animal only those that are run in it. Throws std::invalid_argument for a test it does not
    /// know, with the nearest known one, and std::out_of_range for an analyte without a method.
    std::vector<body::Analyte> analytes(const std::vector<std::string>& tests,
                                        std::optional<body::Kind> kind = {}) const;
};

} // namespace cistern::lab
