#include "base/fault.h"
#include "base/parallel.h"
#include "base/text.h"
#include "body/course.h"
#include "lesson/balance.h"
#include "report/words.h"
#include "terminal/check.h"
#include "terminal/input.h"
#include "terminal/progress.h"

#include <algorithm>
#include <ostream>

namespace cistern::terminal {

namespace {

using lesson::Worth;

struct Seat {
    std::uint64_t seed = 0;
    double ideal = 0, naive = 0, shrug = 0;
    Worth worth() const { return lesson::worth(ideal, naive, shrug); }
};

std::string points(double mark) {
    return base::rounded(mark, 1);
}

std::vector<std::string> spread(const std::string& reader, const std::vector<Seat>& seats,
                                double Seat::*mark) {
    std::vector<double> all;
    for (const Seat& one : seats) all.push_back(one.*mark);
    std::sort(all.begin(), all.end());
    const std::size_t half = all.size() / 2;
    const double median = all.size() % 2 ? all[half] : (all[half - 1] + all[half]) / 2;
    return {reader, points(all.front()), points(median), points(all.back())};
}

void printSpread(Page& page, const std::vector<Seat>& seats) {
    page.table({{"reader", false}, {"least", true}, {"median", true}, {"most [points]", true}},
               {spread("ideal", seats, &Seat::ideal), spread("naive", seats, &Seat::naive),
                spread("shrug", seats, &Seat::shrug)},
               2);
}

void printFlawed(Page& page, const std::vector<Seat>& seats) {
    std::vector<std::vector<std::string>> rows;
    for (const Seat& one : seats)
        if (one.worth() != Worth::fair)
            rows.push_back({std::to_string(one.seed), points(one.ideal), points(one.naive),
                            points(one.shrug),
                            one.worth() == Worth::trivial ? "trivial" : "unanswerable"});
    if (!rows.empty())
        page.table({{"seed", true},
                    {"ideal [points]", true},
                    {"naive", true},
                    {"shrug", true},
                    {"as a question", false}},
                   rows, 2);
}

std::size_t count(const std::vector<Seat>& seats, Worth worth) {
    return static_cast<std::size_t>(std::count_if(
        seats.begin(), seats.end(), [&](const Seat& one) { return one.worth() == worth; }));
}

std::string verdict(const std::vector<Seat>& seats, std::size_t impossible) {
    const std::size_t lost = count(seats, Worth::unanswerable),
                      plain = count(seats, Worth::trivial);
    const std::string all = std::to_string(seats.size() + impossible);
    if (lost + plain + impossible == 0)
        return "Every one of " + report::counted(seats.size(), "animal") +
               " makes a fair question.";
    std::vector<std::string> kinds;
    if (lost) kinds.push_back(std::to_string(lost) + " cannot be answered from the data");
    if (plain) kinds.push_back(std::to_string(plain) + " even a naive reader gets right");
    if (impossible) kinds.push_back(std::to_string(impossible) + " cannot be at all");
    return "Of " + all + " animals " + base::listed(kinds, "and") + "; " +
           std::to_string(count(seats, Worth::fair)) + " make fair questions.";
}

} // namespace

bool tellVariants(World& world, Page& page, const lesson::Case& one,
                  const lesson::Knowledge& knowledge, std::uint64_t seats) {
    std::vector<Seat> good;
    std::size_t impossible = 0;
    {
        Progress progress(world);
        reader::Effort effort;
        effort.animals = lesson::lessonAnimals;
        effort.threads = base::threadsHere();
        for (std::uint64_t seed = 1; seed <= seats; ++seed) {
            progress.show(static_cast<double>(seed - 1) / static_cast<double>(seats),
                          "seed " + std::to_string(seed) + " of " + std::to_string(seats));
            try {
                const lesson::Case variant =
                    scenario::readCase(world.files, one.file, knowledge, seed);
                const lesson::Readers readers = lesson::readers(variant, knowledge, effort);
                good.push_back(
                    {seed, readers.ideal.total, readers.naive.total, readers.shrug.total});
            } catch (const base::InputError& error) {
                ++impossible;
                progress.clear();
                world.err << "With seed " << seed << " what may vary does not fit together:\n"
                          << error.what() << "\n";
            } catch (const body::BeyondLife& error) {
                ++impossible;
                progress.clear();
                world.err << one.name << ", seed " << seed << ": " << error.what() << "\n";
            }
        }
    }
    if (!good.empty()) {
        printSpread(page, good);
        printFlawed(page, good);
    }
    page.paragraph(verdict(good, impossible), 2);
    page.paragraph("Unanswerable: the ideal reader is less than " + points(lesson::hardlyBetter) +
                       " points ahead of a shrug. Trivial: the naive reader comes within " +
                       points(lesson::hardlyBetter) + " points of the ideal one and reaches " +
                       points(lesson::doesWell) + ".",
                   2);
    return impossible == 0;
}

} // namespace cistern::terminal
