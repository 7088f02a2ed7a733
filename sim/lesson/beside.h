#pragma once
#include "lesson/lesson.h"

#include <atomic>
#include <chrono>
#include <future>
#include <memory>
#include <vector>

namespace cistern::lesson {

/// The ideal reader, at work beside whoever reads: begun when the reading page opens, waited for at
/// the commitment. What it finds is the same whenever it began.
class ReaderBeside {
public:
    ReaderBeside() = default;
    ReaderBeside(const ReaderBeside&) = delete;
    ReaderBeside& operator=(const ReaderBeside&) = delete;
    ~ReaderBeside(); ///< stops and waits

    /// Begins on the lesson as it stands, and drops what was begun on another case or other draws.
    /// Case and knowledge of the lesson must outlive it. At least one draw must be taken.
    void begin(const Lesson& lesson);
    /// True once all is worked out; false if nothing was begun.
    bool ready() const;
    /// Share of the weighing that is done, 0..1, in tenths; what further tests would tell is worked
    /// out after that.
    double progress() const;
    /// Waits at most so long and tells whether it is ready.
    bool waitFor(std::chrono::milliseconds patience) const;
    /// Waits, and puts what it believes beside the marks of a lesson that was committed to; begins
    /// if need be. Does nothing where that was done before.
    void compare(Lesson& lesson);

private:
    /// What both threads know of.
    struct Shared {
        std::atomic<bool> stopped{false};
        std::atomic<double> done{0};
    };
    static reader::Posterior weighed(const Knowledge& knowledge, reader::Question question,
                                     const std::shared_ptr<Shared>& shared);
    void stop();

    const Case* subject_ = nullptr; ///< as begun
    std::vector<std::vector<std::string>> tests_;
    std::vector<lab::Handling> handling_;
    std::shared_ptr<Shared> shared_;
    std::future<reader::Posterior> coming_;
};

} // namespace cistern::lesson
