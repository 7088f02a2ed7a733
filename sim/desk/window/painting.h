#pragma once
#include "drawing/painter.h"

#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

namespace cistern::desk {

/// Paints pages on a thread of its own, one after another.
class Painting {
public:
    Painting();
    ~Painting();
    Painting(const Painting&) = delete;
    Painting& operator=(const Painting&) = delete;

    struct Painted {
        drawing::Pixels pixels;
        double seconds = 0; ///< it took
    };
    /// Asks for a picture; false if one is being painted, so ask again later.
    bool ask(const drawing::Picture& picture);
    /// What has been painted since the last call.
    std::optional<Painted> take();
    /// Waits until what was asked for is painted.
    void wait();

private:
    void work();

    std::mutex mutex_;
    std::condition_variable changed_;
    std::optional<drawing::Picture> asked_;
    std::optional<Painted> ready_;
    bool busy_ = false, over_ = false;
    std::thread thread_; ///< last: starts when all else is there
};

} // namespace cistern::desk
