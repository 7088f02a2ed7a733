#include "reference/animals.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstdint>
#include <cstdio>

using namespace cistern::body;
using namespace reference;

namespace {

/// FNV-1a (Fowler, Noll, Vo; 64 bits) over a table as people would print it, to nine digits: the
/// maths library may differ in a last bit from machine to machine, and nobody reads that.
std::uint64_t hashOf(const Course::Table& table) {
    std::uint64_t hash = 14695981039346656037u;
    for (Eigen::Index i = 0; i < table.size(); ++i) {
        std::array<char, 32> text{};
        std::snprintf(text.data(), text.size(), "%.8e", table.data()[i]);
        for (const char* c = text.data(); *c != 0; ++c)
            hash = (hash ^ static_cast<unsigned char>(*c)) * 1099511628211u;
    }
    return hash;
}

Course pinned() {
    const Species& dog = known().dog;
    return course(adult(Kind::dog),
                  {{Drive::liverDeath, 0, 12, deathRate(0.3, 12)},
                   {Drive::bileBlock, 24, 90, 0.7},
                   {Drive::waterLoss, 30, 54, 0.08 / 24},
                   {Drive::nephronDeath, 60, 72, deathRate(0.5, 12)},
                   {Drive::steroidDose, 40, 160, 1},
                   meal(8, dog)},
                  every(1, 168));
}

} // namespace

// For a person: ALT at hour 36 of this course. Any machine and compiler must print this value.
TEST_CASE("The pinned dog has the ALT that it always had", "[body]") {
    CHECK(pinned().at(36).level(Analyte::ALT) == Approx(3102.5683855).epsilon(1e-8));
}

// For a machine: every reading of the course. Changes whenever an equation, a value of the assets
// or a step size changes; then look at the landmark, be sure that it was meant, and put the new
// number here.
TEST_CASE("The pinned dog's course has the same readings as ever", "[body]") {
    const Course c = pinned();
    INFO("ALT at hour 36: " << c.at(36).level(Analyte::ALT) << " U/L");
    CHECK(hashOf(c.table()) == 0x9cedc0192834d544u);
}
