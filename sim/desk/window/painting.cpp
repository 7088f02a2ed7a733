#include "desk/window/painting.h"

#include <chrono>
#include <utility>

namespace cistern::desk {

Painting::Painting() : thread_([this] { work(); }) {}

Painting::~Painting() {
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

bool Painting::ask(const drawing::Picture& picture) {
    {
        const std::lock_guard lock(mutex_);
        if (busy_ || ready_) return false;
        asked_ = picture;
        busy_ = true;
    }
    changed_.notify_all();
    return true;
}

std::optional<Painting::Painted> Painting::take() {
    const std::lock_guard lock(mutex_);
    return std::exchange(ready_, std::nullopt);
}

void Painting::wait() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return !busy_; });
}

void Painting::work() {
    using Clock = std::chrono::steady_clock;
    for (;;) {
        std::optional<drawing::Picture> picture;
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [this] { return over_ || asked_; });
            if (over_) return;
            picture = std::exchange(asked_, std::nullopt);
        }
        const auto begun = Clock::now();
        Painted done{drawing::pixels(*picture), 0};
        done.seconds = std::chrono::duration<double>(Clock::now() - begun).count();
        {
            const std::lock_guard lock(mutex_);
            ready_ = std::move(done);
            busy_ = false;
        }
        changed_.notify_all();
    }
}

} // namespace cistern::desk
