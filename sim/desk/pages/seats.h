#pragma once
#include "base/file.h"
#include "lesson/case.h"

#include <atomic>
#include <cstdint>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cistern::desk {

/// One learner's animal of a case, and what is true of it.
struct Seat {
    std::uint64_t seed = 0;
    std::string who;              ///< "dog, spayed female, 9 y, 18 kg"
    std::vector<std::string> key; ///< "leak of the liver 5.8 fold", ...; why there is none
};

/// Works out the animals of a class beside the drawing thread.
class Seating {
public:
    Seating() = default;
    Seating(const Seating&) = delete;
    Seating& operator=(const Seating&) = delete;
    ~Seating(); ///< stops and waits

    /// Begins on `seats` animals of a case, numbered from `first`. The files and the knowledge must
    /// outlive it.
    void begin(const base::Files& files, const lesson::Knowledge& knowledge,
               const std::string& path, std::uint64_t first, int seats);
    void stop();
    bool working() const { return coming_.valid(); }
    double progress() const; ///< 0..1
    /// What was worked out, once; throws what reading the case threw.
    std::optional<std::vector<Seat>> take();

private:
    struct Shared {
        std::atomic<bool> stopped{false};
        std::atomic<int> done{0};
    };
    std::shared_ptr<Shared> shared_;
    int seats_ = 1;
    std::future<std::vector<Seat>> coming_;
};

} // namespace cistern::desk
