#pragma once
#include "body/individual.h"

#include <cstdint>
#include <optional>

namespace cistern::lesson {

/// Age from which an animal counts as grown [h].
double grownFrom();

/// Member `number` of the herd of a seed, healthy: grown, 2 to 8 years old unless all are of one
/// age [h]. Each is an animal of its own seed, so that its own day and its own analyzer run come
/// with it.
body::Signalment member(body::Kind kind, std::uint64_t herd, std::uint64_t number,
                        std::optional<double> age = {});

} // namespace cistern::lesson
