#include "terminal/beside.h"

#include "base/parallel.h"
#include "lesson/ideal.h"

#include <algorithm>
#include <chrono>
#include <functional>
#include <ostream>

namespace cistern::terminal {

namespace {

constexpr std::chrono::milliseconds patience{500}; // before a word about waiting
const std::string waiting = "The ideal reader is still weighing ...";

reader::Posterior weighed(const lesson::Knowledge& knowledge, reader::Question question,
                          const std::shared_ptr<std::atomic<bool>>& stopped) {
    reader::Reader reader = lesson::readerOf(knowledge, std::move(question));
    reader::Effort effort;
    effort.animals = lesson::lessonAnimals;
    effort.threads = base::threadsHere();
    effort.progress = [stopped](double, const std::vector<double>&) { return !*stopped; };
    reader::Posterior posterior = reader.weigh(effort);
    if (!*stopped) posterior.gains = reader.gains(effort.threads);
    return posterior;
}

} // namespace

ReaderBeside::~ReaderBeside() {
    stop();
}

void ReaderBeside::stop() {
    if (!coming_.valid()) return;
    *stopped_ = true;
    coming_.wait();
    coming_ = {};
}

void ReaderBeside::begin(const lesson::Lesson& lesson) {
    if (coming_.valid() && tests_ == lesson.chosen() && handling_ == lesson.handling()) return;
    stop();
    tests_ = lesson.chosen();
    handling_ = lesson.handling();
    stopped_ = std::make_shared<std::atomic<bool>>(false);
    coming_ = std::async(std::launch::async, weighed, std::cref(lesson.knowledge()),
                         lesson::question(lesson), stopped_);
}

void ReaderBeside::compare(lesson::Lesson& lesson) {
    if (lesson.ideal()) return;
    begin(lesson);
    const bool late = world_.progress && coming_.wait_for(patience) != std::future_status::ready;
    if (late) world_.err << waiting << std::flush;
    coming_.wait();
    if (late) world_.err << "\r" << std::string(waiting.size(), ' ') << "\r" << std::flush;
    lesson.compare(coming_.get());
}

} // namespace cistern::terminal
