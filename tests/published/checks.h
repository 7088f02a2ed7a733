#pragma once
#include "reference/animals.h"

#include <string>
#include <vector>

namespace published {

using cistern::body::Analyte;
using cistern::body::Drive;
using cistern::body::Individual;
using cistern::body::Kind;
using cistern::body::Pool;
using cistern::body::Tissue;

/// How much a pass is worth.
enum class Basis {
    independent, ///< nothing was chosen with this observation in view
    fitted,      ///< a value of the assets was chosen to meet it
    consequence  ///< follows from a published constant that the model uses as it is
};

/// One observation that somebody published, and what the median animal of the model does.
struct Check {
    std::string what;
    std::string published; ///< as printed, in its own words and unit
    double least, most;    ///< what the model may give, in `unit`
    std::string unit;
    double model;
    Basis basis;
    std::string source;   ///< where it was observed
    std::string reason;   ///< why this tolerance
    std::string missed{}; ///< why it is known not to be met; empty if it is

    bool met() const { return model >= least && model <= most; } // a NaN is not
};

std::vector<Check> liverEnzymes();
std::vector<Check> drugs();
std::vector<Check> bile();
std::vector<Check> bileAcids();
std::vector<Check> muscle();
std::vector<Check> protein();
std::vector<Check> kidney();
std::vector<Check> water();
std::vector<Check> growth();
std::vector<Check> redCells();
std::vector<Check> whiteCells();
std::vector<Check> platelets();
std::vector<Check> hormones();
std::vector<Check> sugar();
std::vector<Check> salts();
std::vector<Check> waste();
std::vector<Check> lostProtein();
std::vector<Check> clotting();
std::vector<Check> pancreas();
std::vector<Check> heart();

using cistern::body::Course;
inline constexpr Kind dog = Kind::dog, cat = Kind::cat;
inline constexpr double day = 24; // [h]

/// "dog, " or "cat, " and what was seen in it.
std::string who(Kind kind, const std::string& what);

/// Reasons for a tolerance that many share.
inline const std::string span = "the printed span", bound = "the printed bound",
                         interval = "the interval";

using Windows = std::vector<cistern::body::Window>;

/// What an insult of the assets does to a species.
Windows insult(const std::string& name, double severity, double from, double to, Kind kind);
/// The two together.
Windows operator+(Windows a, const Windows& b);

/// One reading along a course.
class Line {
public:
    Line(const Course& course, int column);
    Line(const Course& course, Analyte analyte);
    double first() const { return values_.front(); }
    double at(double hour) const; ///< between looks along a straight line
    double fold(double hour) const { return at(hour) / first(); }
    double peak() const;
    double peakHour() const;
    double peakFold() const { return peak() / first(); }
    /// First hour above a level, or not above it any more after the peak. NaN: never.
    double rises(double level) const;
    double returns(double level) const;
    double smallest() const;
    /// Share of the rise above the first value at one hour that is left at another.
    double left(double from, double to) const;

private:
    std::vector<double> hours_, values_;
};

/// Course of a median adult from hour 0 on, hourly unless said otherwise.
Course follow(Kind kind, Windows windows, double days, double step = 1);

/// A level at a look, over that at the first.
double fold(const Course& course, Analyte analyte, std::size_t look = 1);

/// Conventional units in the model's.
inline constexpr double bilirubinMg = 17.104;  // umol/L in 1 mg/dL
inline constexpr double creatinineMg = 88.402; // umol/L in 1 mg/dL
inline constexpr double ureaMg = 0.35697;      // mmol/L in 1 mg/dL of urea nitrogen

} // namespace published
