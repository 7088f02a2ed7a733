#pragma once
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace cistern::base {

/// As many threads as this machine runs at once, at least 1.
inline int threadsHere() {
    const unsigned threads = std::thread::hardware_concurrency();
    return threads > 0 ? static_cast<int>(threads) : 1;
}

/// Calls `work(from, to)` for parts of 0..count in several threads and waits for all. What is
/// thrown in one of them is thrown again here.
template<class Work>
void inParallel(std::size_t count, int threads, const Work& work) {
    const std::size_t parts = threads > 1 ? static_cast<std::size_t>(threads) : 1;
    std::exception_ptr failure;
    std::mutex failing;
    const auto part = [&](std::size_t which) {
        try {
            work(count * which / parts, count * (which + 1) / parts);
        } catch (...) {
            const std::lock_guard lock(failing);
            if (!failure) failure = std::current_exception();
        }
    };
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < parts; ++i) others.emplace_back(part, i);
    part(0);
    for (std::thread& other : others) other.join();
    if (failure) std::rethrow_exception(failure);
}

} // namespace cistern::base
