#pragma once
#include "lesson/beside.h"
#include "lesson/lesson.h"
#include "terminal/page.h"
#include "terminal/prompt.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::terminal {

/// A person working a lesson at the prompt, from where the lesson stands to its marks.
class Sitting {
public:
    /// `save` is called after every answer. All must outlive the sitting.
    Sitting(World& world, Page& page, lesson::Lesson& lesson, lab::Units& units,
            std::function<void()> save);

    /// Returns when the marks have been shown; throws Leave when the person leaves before.
    void work();

private:
    /// One question, or one page to be read.
    struct Step {
        lesson::Stage stage;
        std::function<void()> ask;
        std::function<bool()> answered; ///< false also where that cannot be told
    };

    void addSteps();
    std::size_t resumed() const;
    void unlessSame(bool same, const lesson::Action& action);
    void showReport();
    void showTrace();
    void showFilm();
    void bedside();
    void tests(std::size_t draw);
    void handling(std::size_t draw);
    void report();
    void leak(body::Tissue organ);
    void workShare(body::Tissue organ);
    void points();
    bool askPoints(std::map<std::string, double>& given);
    void next();
    void distrust();
    void review();
    void close();
    lesson::Band band(const std::string& unit, double least, double most,
                      const std::optional<lesson::Band>& before,
                      const std::function<lesson::Band(double)>& around, const std::string& help);
    double number(const std::string& text, const std::string& unit, double least,
                  double most) const;
    double askNumber(const std::string& question, double fallback, const std::string& unit,
                     double least, double most, const std::string& help);
    static bool complete(const std::map<std::string, double>& points); ///< a hundred in all
    std::size_t first() const;                                         ///< step of the reading
    std::string place() const;                                         ///< "Question 2 of 6: "

    World& world_;
    lesson::Lesson& lesson_;
    lab::Units& units_;
    std::function<void()> save_;
    Page& page_;
    Prompt prompt_;
    lesson::ReaderBeside reader_;
    std::vector<Step> steps_;
    std::size_t at_ = 0; ///< step being worked
};

} // namespace cistern::terminal
