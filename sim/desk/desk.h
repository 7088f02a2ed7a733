#pragma once
#include "desk/event.h"
#include "desk/pages/page.h"
#include "desk/session.h"

#include <array>
#include <map>
#include <memory>

namespace cistern::desk {

/// The whole desk without a window: takes what a person does, tells what is to be seen. A window, a
/// script and a test drive it alike.
class Desk {
public:
    /// Throws as Session does.
    explicit Desk(const Outside& outside, double width = 1280, double height = 800);

    void handle(const Event& event);
    /// Lets time pass [s].
    void pass(double seconds);
    /// True while something is worked out beside the page.
    bool busy() { return page().busy(); }
    /// What is seen now; laid out anew if anything has changed.
    const Screen& screen();
    /// The slide under the lens that is seen now, as it stands this moment.
    std::optional<Microscope> microscope();
    /// Grows whenever screen() has something new to show.
    unsigned version() const { return version_; }

    Session& session() { return session_; }
    const std::string& focus() const { return focus_; }
    /// The control of that name on the page; null if there is none.
    const Control* find(const std::string& id);
    /// Sets the focus; false if there is no such control.
    bool setFocus(const std::string& id);

private:
    void on(const Keystroke& key);
    void on(const Typed& typed);
    void on(const Pointer& pointer);
    void on(const Wheel& wheel);
    void on(const Resized& size);
    void moveFocus(int by);
    void intoView();
    void scroll(double by);
    void press(const Control& control);
    void turn(int by);
    void scaleText(double by);
    bool writeKey(const Keystroke& key);
    void beginWriting(const Control& control, std::string text);
    void finishWriting();
    const Control* under(Point at);
    Page& page();
    void changed() { stale_ = true; }
    template<class Deed>
    void doing(const Deed& deed);

    Session session_;
    std::array<std::unique_ptr<Page>, pageCount> pages_;
    std::map<PageName, double> scrolls_;
    double width_, height_;
    std::string focus_, under_, held_;
    std::optional<Writing> writing_;
    bool help_ = false;
    std::size_t card_ = 0; ///< shown by a projector
    std::size_t cards_ = 1;
    PageName shown_ = PageName::shelf;
    Screen screen_;
    bool stale_ = true;
    unsigned version_ = 0;
};

} // namespace cistern::desk
