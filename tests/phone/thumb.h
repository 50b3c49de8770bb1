#pragma once

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string>

#include "support/browser.h"
#include "support/catch.h"
#include "support/looking_over.h"

// A phone in a browser of its own, paired with a job that is served on this machine, as a thumb
// has it. It waits for what is to be seen, never for a time.
class Thumb {
 public:
  Thumb(int port, const std::string& code, const std::string& who = "RM", int width = 360,
        int height = 740) {
    browser_.open_address(fmt::format("http://127.0.0.1:{}/#pair={}", port, code), width);
    browser_.resize(width, height);
    until("document.querySelector('[data-key=who]')");
    browser_.evaluate(fmt::format(
        "(() => {{ const field = document.querySelector('[data-key=who]'); field.value = '{}';"
        "field.dispatchEvent(new Event('input')); document.querySelector('form').requestSubmit(); "
        "}})()",
        who));
    until("document.querySelector('a[data-key=next], .list')");
  }

  void open_again() { browser_.reload(); }

  void go(const std::string& hash) {
    browser_.evaluate(fmt::format("void (location.hash = '{}')", hash));
  }

  // Opens a page and waits until it is the one that is drawn.
  void open(const std::string& hash) {
    evaluate("void document.getElementById('main').firstElementChild.setAttribute('data-old', '')");
    evaluate(fmt::format(
        "location.hash === '{0}' ? void dispatchEvent(new HashChangeEvent('hashchange')) "
        ": void (location.hash = '{0}')",
        hash));
    until("document.querySelector('main h1') && !document.querySelector('main > [data-old]')");
  }

  void until(const std::string& condition) {
    const auto waited = browser_.evaluate(fmt::format(
        "new Promise((done) => {{ const end = Date.now() + {}; const look = () => {{"
        "let is = false; try {{ is = Boolean({}); }} catch {{ }}"
        "if (is || Date.now() > end) done(is); else setTimeout(look, 30); }}; look(); }})",
        patience, condition));
    INFO(condition);
    INFO(browser_.evaluate("document.body.innerText").dump());
    REQUIRE(waited == true);
  }

  // A second tap within a moment is a slip of the thumb and counts for nothing, and so does one
  // right after the page moved on by itself: the key is tapped once it is there and counts.
  void tap(const std::string& label) {
    const auto tapped = browser_.evaluate(fmt::format(
        "import('/elements.js').then(({{isSettled}}) => new Promise((done) => {{"
        "const end = Date.now() + {}; const look = () => {{"
        "const key = [...document.querySelectorAll('main button, main a.key')]"
        ".find((each) => each.textContent === '{}');"
        "if (key && isSettled()) {{ key.click(); done(true); }}"
        "else if (Date.now() > end) done(false); else setTimeout(look, 30); }}; look(); }}))",
        patience, label));
    INFO(label);
    INFO(browser_.evaluate("document.body.innerText").dump());
    REQUIRE(tapped == true);
    ++taps;
  }

  // Nothing of what was tapped waits any more, and the link is there.
  void until_sent() { until("document.getElementById('link').textContent === ''"); }

  nlohmann::json evaluate(const std::string& expression) { return browser_.evaluate(expression); }

  void look(const std::string& name) {
    if (!is_looked_at()) return;
    leave("phone-" + name + ".png", browser_.screenshot());
    leave("phone-" + name + ".txt",
          browser_.evaluate("document.body.innerText").get<std::string>());
  }

  Browser& browser() { return browser_; }

  int taps = 0;
  int patience = 20'000;  // milliseconds

 private:
  Browser browser_;
};

inline constexpr const char* kHeading = "document.querySelector('h1').textContent";
