#include "published/checks.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace published {

using namespace cistern::body;

namespace {
constexpr double never = std::numeric_limits<double>::quiet_NaN();
}

std::string who(Kind kind, const std::string& what) {
    return std::string(name(kind)) + ", " + what;
}

Windows insult(const std::string& name, double severity, double from, double to, Kind kind) {
    for (const InsultKind& one : reference::known().insults)
        if (one.name == name)
            return windows({&one, severity, from, to}, reference::known().species(kind));
    throw std::logic_error("no insult named " + name);
}

Windows operator+(Windows a, const Windows& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

Course follow(Kind kind, Windows windows, double days, double step) {
    return reference::course(reference::adult(kind), std::move(windows),
                             reference::every(step, 24 * days));
}

Line::Line(const Course& course, int column) : hours_(course.hours()) {
    for (std::size_t i = 0; i < course.size(); ++i)
        values_.push_back(course.at(i).value[static_cast<std::size_t>(column)]);
}
Line::Line(const Course& course, Analyte analyte) : Line(course, reference::column(analyte)) {}

double Line::at(double hour) const {
    const auto next = std::lower_bound(hours_.begin(), hours_.end(), hour);
    if (next == hours_.end()) throw std::logic_error("an hour after the last look");
    const auto i = static_cast<std::size_t>(next - hours_.begin());
    if (*next == hour) return values_[i];
    const double part = (hour - hours_[i - 1]) / (hours_[i] - hours_[i - 1]);
    return values_[i - 1] + part * (values_[i] - values_[i - 1]);
}

double Line::peak() const {
    return *std::max_element(values_.begin(), values_.end());
}
double Line::peakHour() const {
    return hours_[static_cast<std::size_t>(std::max_element(values_.begin(), values_.end()) -
                                           values_.begin())];
}
double Line::smallest() const {
    return *std::min_element(values_.begin(), values_.end());
}

double Line::rises(double level) const {
    for (std::size_t i = 0; i < values_.size(); ++i)
        if (values_[i] > level) return hours_[i];
    return never;
}
double Line::returns(double level) const {
    for (std::size_t i = 0; i < values_.size(); ++i)
        if (hours_[i] > peakHour() && values_[i] <= level) return hours_[i];
    return never;
}
double Line::left(double from, double to) const {
    return (at(to) - first()) / (at(from) - first());
}

double fold(const Course& course, Analyte analyte, std::size_t look) {
    return course.at(look).level(analyte) / course.at(0).level(analyte);
}

} // namespace published
