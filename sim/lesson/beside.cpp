#include "lesson/beside.h"

#include "base/parallel.h"
#include "lesson/ideal.h"

#include <functional>
#include <utility>

namespace cistern::lesson {

reader::Posterior ReaderBeside::weighed(const Knowledge& knowledge, reader::Question question,
                                        const std::shared_ptr<Shared>& shared) {
    reader::Reader reader = readerOf(knowledge, std::move(question));
    reader::Effort effort;
    effort.animals = lessonAnimals;
    effort.threads = base::threadsHere();
    effort.progress = [shared](double done, const std::vector<double>&) {
        shared->done = done;
        return !shared->stopped;
    };
    reader::Posterior posterior = reader.weigh(effort);
    if (!shared->stopped) posterior.gains = reader.gains(effort.threads);
    return posterior;
}

ReaderBeside::~ReaderBeside() {
    stop();
}

void ReaderBeside::stop() {
    if (!coming_.valid()) return;
    shared_->stopped = true;
    coming_.wait();
    coming_ = {};
}

void ReaderBeside::begin(const Lesson& lesson) {
    if (coming_.valid() && subject_ == &lesson.subject() && tests_ == lesson.chosen() &&
        handling_ == lesson.handling())
        return;
    stop();
    subject_ = &lesson.subject();
    tests_ = lesson.chosen();
    handling_ = lesson.handling();
    shared_ = std::make_shared<Shared>();
    coming_ = std::async(std::launch::async, weighed, std::cref(lesson.knowledge()),
                         question(lesson), shared_);
}

bool ReaderBeside::ready() const {
    return waitFor(std::chrono::milliseconds{0});
}

double ReaderBeside::progress() const {
    return shared_ ? shared_->done.load() : 0;
}

bool ReaderBeside::waitFor(std::chrono::milliseconds patience) const {
    return coming_.valid() && coming_.wait_for(patience) == std::future_status::ready;
}

void ReaderBeside::compare(Lesson& lesson) {
    if (lesson.ideal()) return;
    begin(lesson);
    lesson.compare(coming_.get());
}

} // namespace cistern::lesson
