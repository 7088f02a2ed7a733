#pragma once
#include <ctime>

namespace cistern::timing {

/// Seconds by one of the system's clocks.
inline double secondsBy(clockid_t clock) {
    timespec t{};
    clock_gettime(clock, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

inline double wallSeconds() {
    return secondsBy(CLOCK_MONOTONIC);
}
/// Of the calling thread.
inline double threadSeconds() {
    return secondsBy(CLOCK_THREAD_CPUTIME_ID);
}
/// Of all threads together.
inline double cpuSeconds() {
    return secondsBy(CLOCK_PROCESS_CPUTIME_ID);
}

} // namespace cistern::timing
