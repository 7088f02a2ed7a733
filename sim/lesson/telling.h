#pragma once
#include "lesson/feedback.h"

namespace cistern::lesson {

/// What the sentences of the feedback draw on: the lesson, the animal as it was at each draw, and
/// its healthy twin (same animal, meals and hours, no insult). For the files of this folder only.
struct Telling {
    const Lesson& lesson;
    lab::Units units;
    std::vector<body::Snapshot> twin; ///< by draw of the case
    std::size_t last = 0;             ///< the last draw taken

    Telling(const Lesson& lesson, lab::Units units);

    const body::Snapshot& was() const { return lesson.inside(last); }
    const body::Snapshot& healthy() const { return twin[last]; }

    std::string she() const; ///< "she" or "he"
    std::string her() const; ///< "her" or "his"

    /// "96 U/L", in the chosen units and the analyte's own step.
    std::string amount(double level, body::Analyte analyte) const;
    std::string amount(const lab::Result& result) const;
    /// "bile acids": an analyte's name for a sentence.
    std::string called(body::Analyte analyte) const;

    /// Filtration at the last draw, share of the healthy twin's.
    double filtered() const;

    /// True if a result differs from the animal's own healthy level by more than day-to-day wobble
    /// and the analyzer explain (two-sided 95 %).
    bool moved(const lab::Result& result, std::size_t draw) const;
};

/// The part of a level that varies: urine specific gravity counts from 1, all else from 0.
double varying(double level, body::Analyte analyte);

std::string percent(double share);           ///< 0.27 is "27 %"
std::string plain(double value, int digits); ///< significant digits without idle zeros: "2", "2.4"
std::string fold(double ratio);              ///< two digits, ten and more whole: "5.8", "34"
std::string span(double hours);              ///< "36 hours", "2.6 hours", "12 days"
std::string joined(const std::vector<std::string>& items); ///< "a, b and c"
std::string capital(std::string text);

/// The paragraph about one organ: leak, work, level, drain and the learner's bands.
Paragraph organParagraph(const Telling& telling, const OrganTruth& truth);
/// The same for an organ that no enzyme in the blood stands for: what its numbers follow, and how
/// fast.
std::vector<std::string> functionSentences(const Telling& telling, const OrganTruth& truth);
/// What the tests about an organ's work showed, or would have shown.
std::vector<std::string> workSentences(const Telling& telling, const OrganTruth& truth);
/// Flags that meant little and silence that hid something; doubts about the specimen.
std::vector<std::string> flagSentences(const Telling& telling);
std::vector<std::string> doubtSentences(const Telling& telling);
/// What the ideal reader made of the case, and how the learner's reading lay beside it; none if it
/// was not compared.
std::vector<Paragraph> readerParagraphs(const Telling& telling);

} // namespace cistern::lesson
