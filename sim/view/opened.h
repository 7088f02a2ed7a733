#pragma once
#include "body/course.h"
#include "drawing/opened.h"
#include "lab/bench.h"
#include "lesson/case.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// An organ of a case as vessel and plane, at any hour of its story.
namespace cistern::view {

/// What stands for an organ's leak in blood: the first clue of it that is no output, if its leak
/// goes into blood and the laboratory measures it in this kind of animal.
std::optional<body::Analyte> markerOf(body::Tissue organ, const lab::Bench& bench, body::Kind kind);

/// Organs that the case asks about and that have such a marker, in its order.
std::vector<body::Tissue> openable(const lesson::Case& one, const lab::Bench& bench);

/// The one of them that lies furthest from health; the first where several do. At least one.
body::Tissue furthest(const std::vector<body::Tissue>& organs, const body::Snapshot& now);

/// Steps of a story unless more are asked for.
inline constexpr std::size_t storySteps = 60;

/// steps + 1 hours, evenly from the first insult (an hour before the last draw at the latest, birth
/// at the earliest) to the last draw.
std::vector<double> storyHours(const lesson::Case& one, std::size_t steps = storySteps);

/// The animal at those hours: one course serves every organ of the case.
body::Course story(const lesson::Case& one, const lesson::Knowledge& knowledge,
                   std::size_t steps = storySteps);

/// A marker in the blood at one scale. Levels are in the model's unit.
struct Trough {
    const lab::Method* method;   ///< of the bench that it was made with
    const lab::Writing* writing; ///< likewise
    double limit;                ///< upper limit of the healthy
    double full;                 ///< what fills it
    /// Lets it be as full as this level asks: three upper limits, or more.
    void holding(double level);
    /// Puts the level's water, mark and words into a vessel.
    void fill(drawing::VesselView& vessel, double level) const;
};

/// What enters the blood and what leaves it in an hour, as concentration of the marker.
struct Flows {
    double release = 0;   ///< [printed unit per hour]
    double clearance = 0; ///< likewise; bleeding is not in it
};

/// One organ of one case: what is fixed for it, and how it stands at each hour of the story. Bench
/// and case it was made with must outlive it.
struct OrganStory {
    body::Tissue organ;
    body::Analyte marker;
    body::Individual animal;
    body::Course course;
    Trough trough; ///< holds the highest level of the story
    double own;    ///< the animal's own healthy level [model's unit]

    std::size_t hours() const { return course.size(); } ///< at least two
    std::size_t last() const { return course.size() - 1; }
    double hour(std::size_t at) const { return course.hours()[at]; }

    /// As it stood: work, leak, level, and a spout as wide as the clearance of what is in the
    /// blood (0.5: as in health). Name and caption are left to whoever shows it.
    drawing::VesselView at(std::size_t at) const;
    /// The same animal before anything happened, at the same scale.
    drawing::VesselView healthy() const;
    /// Release as the model has it at that hour; clearance by half-life, filtration and level. The
    /// level moves by their difference while the vessels are filled as in health.
    Flows flows(std::size_t at) const;
    /// Its way so far, up to that hour.
    drawing::PlaneView plane(std::size_t at) const;
};

/// Throws std::invalid_argument for an organ without a marker.
OrganStory organStory(const lesson::Case& one, const lesson::Knowledge& knowledge,
                      body::Course course, body::Tissue organ, lab::Units units);

/// An organ at a moment over a trough.
drawing::VesselView vessel(const body::Snapshot& now, body::Tissue organ, const Trough& trough);

/// An organ's way over a course up to one of its hours (left out: the last), labelled by the time
/// before the last; no path if it stood still. For organs without a marker as well.
drawing::PlaneView plane(const body::Course& course, body::Tissue organ,
                         std::optional<std::size_t> until = {});

/// The page of an organ opened at the last draw, beside the same in health.
drawing::OpenedView opened(const lesson::Case& one, const OrganStory& story);

} // namespace cistern::view
