// Results against their peers.
#include "at_hand.h"
#include "lab/change.h"
#include "view/strips.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <iostream>
#include <set>

using namespace cistern;
using namespace cistern::test;

namespace {

const drawing::Box box{0, 0, 420, 90};

} // namespace

TEST_CASE("every result of a report stands under one heading", "[view]") {
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const lesson::Lesson lesson(one, known());
        for (const lesson::Taken& taken : lesson.taken()) {
            std::set<const lab::Result*> seen;
            for (const view::Strips& group : view::groups(taken.report, known().bench)) {
                INFO(name << ", " << group.name);
                CHECK_FALSE(group.results.empty());
                for (const lab::Result* result : group.results) CHECK(seen.insert(result).second);
            }
            CHECK(seen.size() == taken.report.results.size());
        }
    }
}

TEST_CASE("a strip holds what the report prints", "[view]") {
    for (const char* name : three)
        for (const lab::Units units : {lab::Units::conventional, lab::Units::si}) {
            const lesson::Case one = shipped(name);
            const lesson::Lesson lesson(one, known());
            const view::Crowd& peers = crowd(one.who.kind);
            for (const lesson::Taken& taken : lesson.taken())
                for (const lab::Result& result : taken.report.results) {
                    INFO(name << ", " << body::name(result.analyte));
                    const lab::Report& first = lesson.taken().front().report;
                    const lab::Result* earlier =
                        &first == &taken.report ? nullptr : first.find(result.analyte);
                    const drawing::StripView strip =
                        view::strip(result, earlier, peers, known().bench, units);
                    const lab::Writing& writing =
                        known().bench.method(result.analyte).writing(units);
                    CHECK_THAT(strip.valueWords,
                               Catch::StartsWith(lab::printed(result, known().bench, units)));
                    CHECK(std::abs(strip.value - result.value * writing.factor) < 1e-9);
                    CHECK(strip.peers.size() > view::Crowd::usual * 9 / 10);
                    CHECK(strip.low.has_value() == result.interval.has_value());
                    CHECK_NOTHROW(drawing::strip(strip, box));
                    if (!earlier || result.bound != lab::Bound::exact ||
                        earlier->bound != lab::Bound::exact)
                        continue;
                    const bool beyond =
                        std::abs(strip.value - strip.earlier->value) > strip.earlier->halfWidth;
                    CHECK(beyond == lab::moved(*earlier, result, peers.within(result.analyte)));
                }
        }
}

TEST_CASE("most of a crowd lies inside the interval, as healthy animals do", "[view]") {
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat}) {
        body::Signalment who;
        who.kind = kind;
        for (const body::Analyte analyte :
             {body::Analyte::ALT, body::Analyte::albumin, body::Analyte::creatinine,
              body::Analyte::K, body::Analyte::Hct, body::Analyte::platelets}) {
            const std::vector<double>& peers = crowd(kind).peers(analyte);
            const lab::Interval* interval = known().bench.interval(who, 0, analyte);
            REQUIRE(interval);
            std::size_t inside = 0;
            for (const double peer : peers)
                inside += peer >= interval->low && peer <= interval->high;
            INFO(body::name(analyte));
            CHECK(static_cast<double>(inside) > 0.85 * static_cast<double>(peers.size()));
        }
    }
    CHECK(crowd(body::Kind::cat).name() == "healthy cats");
}

TEST_CASE("a crowd is the same every time, and has the age that is asked for", "[view]") {
    const view::Crowd few(known(), body::Kind::dog, {}, 12),
        again(known(), body::Kind::dog, {}, 12), young(known(), body::Kind::dog, 11 * 168., 12);
    CHECK(few.peers(body::Analyte::ALP) == again.peers(body::Analyte::ALP));
    double grown = 0, puppies = 0; // bone that grows leaks its own
    for (const double one : few.peers(body::Analyte::ALP)) grown += one;
    for (const double one : young.peers(body::Analyte::ALP)) puppies += one;
    CHECK(puppies > 1.5 * grown);
    body::Signalment who;
    CHECK_FALSE(view::ageOfPeers(who));
    who.age = 1000;
    CHECK(view::ageOfPeers(who) == 1000);
}

TEST_CASE("how long a crowd takes", "[.timing]") {
    known(); // loading is not counted
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat}) {
        const auto begun = std::chrono::steady_clock::now();
        const view::Crowd made(known(), kind);
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begun;
        std::cout << made.name() << ": " << took.count() << " ms\n";
        CHECK(took.count() > 0);
    }
}
