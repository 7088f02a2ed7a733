#include "reference/ode.h"
#include "solver/cases.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace cistern;

namespace {

std::vector<std::string> fields(const std::string& line) {
    std::vector<std::string> all;
    std::istringstream in(line);
    for (std::string one; std::getline(in, one, ',');) all.push_back(one);
    return all;
}

/// How far a value is from the known one, relative to it or to what a laboratory still tells from
/// nothing.
double apart(double value, double known, double floor) {
    return std::abs(value - known) / std::max(std::abs(known), floor);
}

} // namespace

// tests/solver/courses.csv: the whole body's equations written a third time, in R, solved by
// deSolve's lsoda to 1e-9; every analyte, eleven animals. The body keeps to it within 1e-4, the
// project's error bound: a hundred times below what the best assay repeats to. Below a twentieth of
// its healthy level an analyte is measured against that (reference::floors): no laboratory tells
// less from nothing. The table holds eight digits. After a change of equations or assets the target
// cistern_solver_table makes it anew.
TEST_CASE("Courses of every analyte agree with the table that R computed within 1e-4", "[body]") {
    std::istringstream table(base::Disk().read(CISTERN_SOURCE "/tests/solver/courses.csv"));
    std::string line;
    std::getline(table, line);
    std::vector<std::string> head{"case", "hour"};
    for (body::Analyte analyte : body::analytes()) head.emplace_back(name(analyte));
    REQUIRE(fields(line) == head);
    double worst = 0, between = 0;
    for (const reference::SolverCase& one : reference::solverCases()) {
        const body::Course course = body::simulate(one.plan);
        const std::vector<double> odeint = reference::course(one.plan, 1e-10);
        const std::vector<double> floors = reference::floors(one.plan);
        for (std::size_t look = 0; look < course.size(); ++look) {
            REQUIRE(std::getline(table, line));
            const auto row = fields(line);
            CAPTURE(one.name, course.hours()[look]);
            REQUIRE(row.size() == head.size());
            REQUIRE(row[0] == one.name);
            REQUIRE(std::stod(row[1]) == course.hours()[look]);
            for (std::size_t i = 2; i < row.size(); ++i) {
                const std::size_t reading = body::reading::analyte + i - 2;
                const double known = std::stod(row[i]);
                const double value = course.at(look).value[reading];
                const double error = apart(value, known, floors[reading]);
                CAPTURE(head[i], value, row[i]);
                if (!(error <= 1e-4)) CHECK(error <= 1e-4);
                worst = std::max(worst, error);
                const double second = odeint[look * body::reading::count + reading];
                const double gap = apart(second, known, floors[reading]);
                CAPTURE(second);
                if (!(gap <= 1e-6)) CHECK(gap <= 1e-6);
                between = std::max(between, gap);
            }
        }
    }
    CHECK_FALSE(std::getline(table, line));
    CAPTURE(worst);
    CHECK(worst > 0); // something was compared
    CHECK(worst <= 1e-4);
    CAPTURE(between); // the second writing and the third: only their solvers' tolerances apart
    CHECK(between <= 1e-6);
}
