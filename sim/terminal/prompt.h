#pragma once
#include "terminal/page.h"
#include "terminal/world.h"

#include <functional>
#include <string>
#include <vector>

namespace cistern::terminal {

/// Thrown by a question when the person wants to save and leave (q, or the end of the input).
struct Leave {
    bool asked; ///< false at the end of the input: nothing more can be asked
};
/// Thrown by a question when the person wants to go back.
struct StepBack {};

/// Asks at the prompt. In every question `?` explains, `b` goes back and `q` saves and leaves; an
/// empty line takes the default shown.
class Prompt {
public:
    explicit Prompt(World& world) : world_(world), page_(world.out, world.styled) {}

    /// A letter that works in every question besides.
    struct Side {
        std::string letter, words;
        std::function<void()> act;
    };
    void sides(std::vector<Side> sides) { sides_ = std::move(sides); }

    /// A line of text. Without a default an empty line asks again.
    std::string ask(const std::string& question, const std::string& fallback,
                    const std::string& help);
    /// Waits for an empty line.
    void goOn(const std::string& help);
    /// One of a numbered list, shown first; gives its index. `fallback` -1: no default.
    std::size_t choose(const std::vector<std::string>& list, int fallback, const std::string& help);
    /// Says something about an answer that cannot be taken.
    void object(const std::string& sentence);

private:
    std::string line(const std::string& shown);
    bool handled(const std::string& text, const std::string& help);

    World& world_;
    Page page_;
    std::vector<Side> sides_;
};

/// Numbers of a list ("1 3", "1,3", "2-4", "all", names too) as indexes, each once, in the list's
/// order. Throws UsageError with one sentence.
std::vector<std::size_t> readChoices(const std::string& text, const std::vector<std::string>& list);

} // namespace cistern::terminal
