// One seed, one printout: whatever the number of threads, and however often it is asked for.
#include "printed_case.h"

#include <catch2/catch.hpp>

#include <atomic>
#include <cstdio>
#include <ctime>
#include <thread>

using namespace cistern;

namespace {

std::vector<std::string> cases() {
    std::vector<std::string> names;
    for (const std::string& path : base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml")) {
        const std::size_t from = path.rfind('/') + 1;
        names.push_back(path.substr(from, path.rfind('.') - from));
    }
    return names;
}

/// All that a case prints, to the last bit, traces and remarks included.
std::string printout(const std::string& name) {
    std::string all;
    const auto add = [&](double value) {
        char text[32];
        std::snprintf(text, sizeof text, "%a ", value);
        all += text;
    };
    for (const lab::Report& report : test::print(name).reports) {
        for (const lab::Result& result : report.results) {
            add(result.value);
            for (const float absorbance : result.trace.absorbance)
                add(static_cast<double>(absorbance));
            for (const std::string& note : result.notes) all += note;
        }
        for (const std::string& line : report.warnings) all += line;
    }
    return all;
}

} // namespace

TEST_CASE("a case prints the same to the last bit on any number of threads", "[scenario]") {
    const std::vector<std::string> names = cases();
    REQUIRE(names.size() > 40);
    std::vector<std::string> alone;
    for (const std::string& name : names) alone.push_back(printout(name));
    for (const std::size_t threads : {2u, 5u}) {
        std::vector<std::string> together(names.size());
        std::atomic<std::size_t> next{0};
        std::vector<std::thread> crew;
        for (std::size_t t = 0; t < threads; ++t)
            crew.emplace_back([&] {
                for (std::size_t i; (i = next++) < names.size();) together[i] = printout(names[i]);
            });
        for (std::thread& one : crew) one.join();
        for (std::size_t i = 0; i < names.size(); ++i) {
            INFO(names[i]);
            CHECK(together[i] == alone[i]);
        }
    }
}

TEST_CASE("time of a whole report", "[.timing]") {
    const lesson::Case one = test::shipped("no_smoke_from_the_chimney");
    const auto& knowledge = test::assets().knowledge;
    const body::Individual animal = lesson::patient(one, knowledge);
    const body::Snapshot truth = lesson::atDraws(one, knowledge)[0];
    constexpr int times = 2000;
    std::size_t results = 0, traces = 0;
    const std::clock_t before = std::clock();
    for (int i = 0; i < times; ++i) {
        const lab::Report report =
            lesson::report(one, knowledge, animal, truth, 0, one.draws[0].tests);
        results = report.results.size();
        traces = 0;
        for (const lab::Result& result : report.results) traces += !result.trace.absorbance.empty();
    }
    const double seconds = static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
    std::printf("A report of %zu results, %zu with traces: %.3f ms of CPU time\n", results, traces,
                1000 * seconds / times);
    CHECK(traces > 20);
}
