#include "reference/animals.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <cstring>

using namespace cistern::body;
using namespace reference;

namespace {

/// FNV-1a over the bytes of a table (Fowler, Noll, Vo; 64 bits).
std::uint64_t hashOf(const Course::Table& table) {
    std::uint64_t hash = 14695981039346656037u;
    for (Eigen::Index i = 0; i < table.size(); ++i) {
        std::uint64_t bits = 0;
        std::memcpy(&bits, table.data() + i, sizeof bits);
        for (int byte = 0; byte < 8; ++byte, bits >>= 8)
            hash = (hash ^ (bits & 0xff)) * 1099511628211u;
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
    CHECK(pinned().at(36).level(Analyte::ALT) == Approx(2982.96433).epsilon(1e-8));
}

#if defined(__x86_64__) && defined(__GLIBC__)
// For a machine: every bit of the course. Changes whenever an equation, a value of the assets or
// the order of an operation changes; then look at the landmark, be sure that it was meant, and put
// the new number here.
TEST_CASE("The pinned dog's course has the same bits as ever", "[body]") {
    const Course c = pinned();
    INFO("ALT at hour 36: " << c.at(36).level(Analyte::ALT) << " U/L");
    CHECK(hashOf(c.table()) == 0xc3e154fa1598a239u);
}
#endif
