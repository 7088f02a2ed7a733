#pragma once
#include "body/constants.h"
#include "body/part.h"

#include <cstddef>

namespace cistern::body {

/// One build of the stepping code: as many animals side by side as its vector unit holds numbers.
/// Plain functions on a block of memory, so that nothing else of the program is ever built for that
/// unit.
struct Unit {
    int lanes;
    std::size_t bytes; ///< of a block, to be aligned to 64
    /// Puts an animal into a lane.
    void (*load)(void* block, int lane, const Constants<double>& constants,
                 const State<double>& state);
    /// Sets what acts on a lane's animal: driveCount values.
    void (*drive)(void* block, int lane, const double* values);
    /// Sets the hours of a lane's next steps; 0 stands still.
    void (*pace)(void* block, int lane, double hours);
    /// Moves every lane by its step; of the parts only these.
    void (*step)(void* block, Parts parts, bool read);
    /// Copies reading::count values of a lane, as they stood after the last step that read.
    /// Those of parts that were not stepped mean nothing.
    void (*read)(const void* block, int lane, double* values);
};

// Of doubles, and of single precision: twice as many side by side.
extern const Unit unitSse2, unitSse2Single;
#ifdef CISTERN_WIDE_UNITS
extern const Unit unitAvx2, unitAvx2Single, unitAvx512, unitAvx512Single;
#endif

} // namespace cistern::body
