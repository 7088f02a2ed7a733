#pragma once
#include "lesson/lesson.h"
#include "terminal/world.h"

#include <atomic>
#include <future>
#include <memory>
#include <optional>
#include <vector>

namespace cistern::terminal {

/// The ideal reader, at work beside whoever reads: begun when the reading page opens, waited for at
/// the commitment. What it finds is the same whenever it began.
class ReaderBeside {
public:
    explicit ReaderBeside(World& world) : world_(world) {}
    ReaderBeside(const ReaderBeside&) = delete;
    ~ReaderBeside(); ///< stops and waits

    /// Begins on the lesson as it stands, and drops what was begun on other draws. Case and
    /// knowledge of the lesson must outlive it.
    void begin(const lesson::Lesson& lesson);
    /// Puts what it believes beside the marks of a lesson that was committed to. Where that takes
    /// its time, whoever watches is told so.
    void compare(lesson::Lesson& lesson);

private:
    void stop();

    World& world_;
    std::vector<std::vector<std::string>> tests_; ///< as begun
    std::vector<lab::Handling> handling_;
    std::shared_ptr<std::atomic<bool>> stopped_;
    std::future<reader::Posterior> coming_;
};

} // namespace cistern::terminal
