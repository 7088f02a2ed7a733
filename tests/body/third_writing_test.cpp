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

} // namespace

// tests/solver/courses.csv: the equations written a third time, in R, solved by deSolve's lsoda to
// 1e-9. 1e-4 is the project's error bound; the table itself holds ten digits. After a change of
// equations or assets the target cistern_solver_table makes it anew.
TEST_CASE("Courses agree with the table that R computed within 1e-4", "[body]") {
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
        for (std::size_t look = 0; look < course.size(); ++look) {
            REQUIRE(std::getline(table, line));
            const auto row = fields(line);
            CAPTURE(one.name, course.hours()[look]);
            REQUIRE(row.size() == head.size());
            REQUIRE(row[0] == one.name);
            REQUIRE(std::stod(row[1]) == course.hours()[look]);
            for (std::size_t i = 2; i < row.size(); ++i) {
                const double value = course.at(look).value[body::reading::analyte + i - 2];
                const double apart = std::abs(value / std::stod(row[i]) - 1);
                CAPTURE(head[i], value, row[i]);
                if (!(apart <= 1e-4)) CHECK(apart <= 1e-4);
                worst = std::max(worst, apart);
                const double second =
                    odeint[look * body::reading::count + body::reading::analyte + i - 2];
                between = std::max(between, std::abs(second / std::stod(row[i]) - 1));
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
