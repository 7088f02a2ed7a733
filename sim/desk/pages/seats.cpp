#include "desk/pages/seats.h"

#include "base/text.h"
#include "lesson/marks.h"
#include "lesson/organ.h"
#include "report/text.h"
#include "report/words.h"
#include "scenario/assets.h"

#include <chrono>

namespace cistern::desk {

namespace {

std::vector<std::string> keyOf(const lesson::Case& one, const lesson::Knowledge& knowledge) {
    const std::vector<body::Snapshot> at = lesson::atDraws(one, knowledge);
    if (at.empty()) return {"no draw"};
    const lesson::Truth truth = lesson::truthOf(one, at.back());
    std::vector<std::string> key;
    if (!truth.explanations.empty()) key.push_back(base::listed(truth.explanations, "and"));
    for (const lesson::OrganTruth& organ : truth.organs) {
        std::string line =
            std::string(body::name(organ.organ)) + ": work " + base::rounded(organ.work, 1) + " %";
        if (lesson::organOf(organ.organ).leaks)
            line += ", leak " + base::significant(organ.leak, 2) + " fold";
        key.push_back(line);
    }
    return key;
}

} // namespace

Seating::~Seating() {
    stop();
}

void Seating::stop() {
    if (!coming_.valid()) return;
    shared_->stopped = true;
    coming_.wait();
    coming_ = {};
}

void Seating::begin(const base::Files& files, const lesson::Knowledge& knowledge,
                    const std::string& path, std::uint64_t first, int seats) {
    stop();
    shared_ = std::make_shared<Shared>();
    seats_ = seats;
    coming_ =
        std::async(std::launch::async, [&files, &knowledge, path, first, seats, shared = shared_] {
            std::vector<Seat> all;
            for (int i = 0; i < seats && !shared->stopped; ++i) {
                const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
                const lesson::Case one = scenario::readCase(files, path, knowledge, seed);
                Seat seat{seed, report::signalment(one.who), {}};
                try {
                    seat.key = keyOf(one, knowledge);
                } catch (const body::BeyondLife&) {
                    seat.key = {"no animal lives through this; leave the number out"};
                }
                all.push_back(std::move(seat));
                ++shared->done;
            }
            return all;
        });
}

double Seating::progress() const {
    return shared_ ? static_cast<double>(shared_->done) / seats_ : 0;
}

std::optional<std::vector<Seat>> Seating::take() {
    if (!coming_.valid() || coming_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
        return std::nullopt;
    return coming_.get();
}

} // namespace cistern::desk
