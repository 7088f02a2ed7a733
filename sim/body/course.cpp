#include "body/course.h"

#include "body/march.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <thread>

namespace cistern::body {

namespace {

std::string readingName(int reading) {
    const auto named = [](std::string_view what, std::string_view of) {
        return std::string(what) + std::string(of);
    };
    if (reading < reading::leak)
        return named("work of ", name(tissues()[static_cast<std::size_t>(reading)]));
    if (reading < reading::analyte)
        return named("leak of ",
                     name(tissues()[static_cast<std::size_t>(reading - reading::leak)]));
    if (reading < reading::gfr)
        return std::string(name(analytes()[static_cast<std::size_t>(reading - reading::analyte)]));
    if (reading >= reading::release)
        return named("release of ",
                     name(pools()[static_cast<std::size_t>(reading - reading::release)]));
    if (reading >= reading::pool)
        return named("pool of ", name(pools()[static_cast<std::size_t>(reading - reading::pool)]));
    constexpr std::array<std::string_view, 5> rest{"filtration", "hydration", "plasma volume",
                                                   "conjugated bilirubin", "delta bilirubin"};
    return std::string(rest[static_cast<std::size_t>(reading - reading::gfr)]);
}

/// Refuses what no animal can have, where it arises.
void check(std::span<const double> hours, const double* rows) {
    for (std::size_t look = 0; look < hours.size(); ++look)
        for (int r = 0; r < reading::count; ++r) {
            const double value = rows[look * reading::count + static_cast<std::size_t>(r)];
            if (!(value >= 0) || !std::isfinite(value))
                throw std::runtime_error(readingName(r) + " became " + std::to_string(value) +
                                         " at hour " + std::to_string(hours[look]));
        }
}

/// Simulates up to one animal a lane.
std::vector<Course> together(std::span<const Plan* const> plans) {
    std::vector<Course::Table> tables;
    std::vector<std::span<const double>> looks;
    std::vector<double*> rows;
    tables.reserve(plans.size());
    for (const Plan* plan : plans) {
        plan->validate();
        tables.emplace_back(static_cast<Eigen::Index>(plan->looks.size()), reading::count);
        looks.emplace_back(plan->looks);
        rows.push_back(tables.back().data());
    }
    Batch(unitInUse(), plans).march(looks, rows);
    std::vector<Course> courses;
    for (std::size_t i = 0; i < plans.size(); ++i) {
        check(plans[i]->looks, rows[i]);
        courses.emplace_back(plans[i]->looks, std::move(tables[i]));
    }
    return courses;
}

} // namespace

Course::Course(std::vector<double> hours, Table table)
    : hours_(std::move(hours)), table_(std::move(table)) {}

Snapshot Course::at(std::size_t look) const {
    Snapshot s;
    s.hour = hours_.at(look);
    for (int r = 0; r < reading::count; ++r)
        s.value[static_cast<std::size_t>(r)] = table_(static_cast<Eigen::Index>(look), r);
    return s;
}

Course simulate(const Plan& plan) {
    const Plan* one = &plan;
    return std::move(together({&one, 1}).front());
}

void simulate(std::size_t animals, const std::function<Plan(std::size_t)>& plan,
              const std::function<void(std::size_t, const Course&)>& visit, int threads) {
    const auto lanes = static_cast<std::size_t>(unitInUse().lanes);
    std::atomic<std::size_t> next{0};
    std::exception_ptr failure;
    std::mutex failing;
    const auto work = [&] {
        try {
            for (std::size_t first; (first = next.fetch_add(lanes)) < animals;) {
                std::vector<Plan> plans;
                for (std::size_t i = first; i < std::min(first + lanes, animals); ++i)
                    plans.push_back(plan(i));
                std::vector<const Plan*> each;
                for (const Plan& one : plans) each.push_back(&one);
                const std::vector<Course> courses = together(each);
                for (std::size_t i = 0; i < courses.size(); ++i) visit(first + i, courses[i]);
            }
        } catch (...) {
            const std::lock_guard lock(failing);
            if (!failure) failure = std::current_exception();
            next = animals;
        }
    };
    std::vector<std::thread> others;
    for (int i = 1; i < threads; ++i) others.emplace_back(work);
    work();
    for (std::thread& other : others) other.join();
    if (failure) std::rethrow_exception(failure);
}

struct Run::Inside {
    Plan plan;
    const Plan* one = &plan;
    Batch batch;
    double hour;
    explicit Inside(const Plan& from)
        : plan(from), batch(unitInUse(), {&one, 1}), hour(from.from) {}
};

Run::Run(const Plan& plan) {
    plan.validate();
    inside_ = std::make_unique<Inside>(plan);
}
Run::~Run() = default;
Run::Run(Run&&) noexcept = default;

Snapshot Run::advance(double hour) {
    if (!(hour >= inside_->hour)) throw std::invalid_argument("a run moves on, never back");
    Snapshot s;
    s.hour = inside_->hour = hour;
    const std::span<const double> look(&hour, 1);
    double* row = s.value.data();
    inside_->batch.march({&look, 1}, {&row, 1});
    check(look, row);
    return s;
}

} // namespace cistern::body
