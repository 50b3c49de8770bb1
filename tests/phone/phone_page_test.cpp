#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <random>
#include <sstream>

#include "phone/served_job.h"
#include "phone/serving.h"
#include "support/browser.h"

namespace phone_page_test {

namespace {

// A browser on the pages of a served job, as a thumb has them.
class Thumb {
 public:
  explicit Thumb(ServedJob& job) : job_(job) {
    serve();
    complaints_ =
        browser_
            .open_address(
                fmt::format("http://127.0.0.1:{}/#pair={}", port_, serving_->desk().code()), 360)
            .complaints;
    until("document.querySelector('[data-key=who]')");
    browser_.evaluate(
        "(() => { const field = document.querySelector('[data-key=who]'); field.value = 'RM';"
        "field.dispatchEvent(new Event('input')); document.querySelector('form').requestSubmit(); "
        "})()");
    until("document.querySelector('h1').textContent === 'GB-1 gearbox'");
  }

  void open_again() { browser_.reload(); }

  void cut() { serving_.reset(); }

  void serve() {
    phone::ServeOptions options;
    options.port = port_;
    serving_ = std::make_unique<phone::Serving>(job_.place(), options);
    port_ = serving_->port();
  }

  [[nodiscard]] bool is_cut() const { return serving_ == nullptr; }

  void go(const std::string& hash) {
    browser_.evaluate(fmt::format("void (location.hash = '{}')", hash));
  }

  void until(const std::string& condition) {
    const auto waited = browser_.evaluate(fmt::format(
        "new Promise((done) => {{ const end = Date.now() + 20000; const look = () => {{"
        "let is = false; try {{ is = Boolean({}); }} catch {{ }}"
        "if (is || Date.now() > end) done(is); else setTimeout(look, 30); }}; look(); }})",
        condition));
    INFO(condition);
    INFO(browser_.evaluate("document.body.innerText").dump());
    REQUIRE(waited == true);
  }

  // A second tap within a moment is a slip of the thumb and counts for nothing, so it waits.
  void tap(const std::string& label) {
    const auto key = fmt::format(
        "[...document.querySelectorAll('main button')].find((key) => key.textContent === '{}')",
        label);
    browser_.evaluate("new Promise((done) => setTimeout(done, 420))");
    until(key);
    browser_.evaluate(key + ".click()");
    ++taps;
  }

  nlohmann::json evaluate(const std::string& expression) { return browser_.evaluate(expression); }

  void look(const std::string& name) {
    const char* folder = std::getenv("BOLTWITNESS_LOOK");
    if (folder == nullptr) return;
    const auto stem = (std::filesystem::path(folder) / ("phone-" + name)).string();
    std::ofstream(stem + ".png", std::ios::binary) << browser_.screenshot();
    std::ofstream(stem + ".txt") << browser_.evaluate("document.body.innerText").get<std::string>();
  }

  int taps = 0;

 private:
  ServedJob& job_;
  int port_ = 0;
  std::unique_ptr<phone::Serving> serving_;
  Browser browser_;
  std::vector<std::string> complaints_;
};

constexpr const char* kHeading = "document.querySelector('h1').textContent";

// How often each line of these words stands in the log.
int lines_with(ServedJob& job, const std::string& words) {
  int count = 0;
  const auto history = job.trial.done("history --json").json();
  for (const auto& line : history["lines"]) {
    if (line["says"].get<std::string>().find(words) == 0 && line["struck"].is_null()) ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("a joint goes from teardown to stripe by the thumb, the link cut again and again",
          "[phone][browser]") {
  ServedJob job;
  Thumb thumb(job);
  thumb.look("home");
  std::minstd_rand chance(20261128);
  const auto perhaps_cut = [&] {
    if (chance() % 3 != 0) return;
    thumb.is_cut() ? thumb.serve() : thumb.cut();
  };

  thumb.go("#/teardown/J06");
  for (int position = 1; position <= 3; ++position) {
    thumb.until(fmt::format("{}.startsWith('J06/0{}')", kHeading, position));
    thumb.look(fmt::format("break-{}", position));
    thumb.tap("It came loose");
    perhaps_cut();
    thumb.until("document.querySelector('.large')");
    thumb.look(fmt::format("pull-{}", position));
    // Short until it is near, as a bolt of 80 N·m would be.
    while (true) {
      const double setting =
          thumb.evaluate("parseFloat(document.querySelector('.large').textContent)").get<double>();
      const bool is_on = setting >= 78.0;
      thumb.tap(is_on ? "On" : "Short");
      perhaps_cut();
      if (is_on) break;
      thumb.until(
          fmt::format("parseFloat(document.querySelector('.large').textContent) > {}", setting));
    }
  }
  thumb.until("document.body.innerText.includes('All of it is out and tested.')");
  if (thumb.is_cut()) thumb.serve();
  thumb.until("document.getElementById('link').textContent === ''");

  thumb.go("#/tighten/J06");
  for (int step = 0; step < 6; ++step) {
    thumb.until(
        "[...document.querySelectorAll('main button')].some((key) => key.textContent === 'Done')");
    if (step == 0) thumb.look("tighten");
    const auto heading = thumb.evaluate(kHeading).get<std::string>();
    thumb.tap("Done");
    perhaps_cut();
    thumb.until(fmt::format("{} !== {}", kHeading, nlohmann::json(heading).dump()));
  }
  if (thumb.is_cut()) thumb.serve();
  thumb.until("document.getElementById('link').textContent === ''");
  thumb.go("#/stripe");
  thumb.tap("Drawn on J06");
  thumb.until("document.body.innerText.includes('No final stripe is due.')");
  thumb.look("stripe");
  thumb.until("document.getElementById('link').textContent === ''");
  thumb.go("#/show/J06/2");
  thumb.until("document.querySelector('circle.bolt.here')");
  thumb.look("show");

  for (int position = 1; position <= 3; ++position) {
    CHECK(lines_with(job, fmt::format("J06/0{} out", position)) == 1);
    CHECK(lines_with(job, fmt::format("J06/0{} pass 1", position)) == 1);
    CHECK(lines_with(job, fmt::format("J06/0{} pass 2", position)) == 1);
  }
  CHECK(lines_with(job, "J06/1-3 final stripe") == 1);
  // Each tap is one line, and there is no other: the tests end in a line of their own kind.
  const auto lines = job.trial.done("history --json").json()["lines"];
  CHECK(static_cast<int>(lines.size()) == 4 + thumb.taps);
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("what was tapped without a link is there when the page is opened again",
          "[phone][browser]") {
  ServedJob job;
  Thumb thumb(job);
  thumb.go("#/teardown/J06");
  thumb.until("document.body.innerText.includes('Draw the mark')");
  thumb.cut();
  thumb.tap("It came loose");
  thumb.tap("Short");
  thumb.until("document.getElementById('link').textContent.startsWith('No link. 2 kept here')");
  thumb.look("no-link");
  CHECK(lines_with(job, "J06/01") == 0);
  thumb.serve();
  thumb.open_again();
  // What waits is drawn before the pulls are, so that an empty bar beside them means that all of it
  // was taken; on a page that has drawn nothing yet it is empty too.
  thumb.until("document.querySelector('.pulls')");
  thumb.until("document.getElementById('link').textContent === ''");
  CHECK(lines_with(job, "J06/01 out") == 1);
  CHECK(lines_with(job, "J06/01 pull") == 1);
}

TEST_CASE("a refusal is shown where the thumb is, with what to do", "[phone][browser]") {
  ServedJob job;
  Thumb thumb(job);
  thumb.go("#/teardown/J06");
  thumb.until("document.body.innerText.includes('Draw the mark')");
  thumb.cut();
  job.trial.done("out J06/1");
  thumb.tap("It came loose");
  thumb.serve();
  thumb.until("document.querySelector('.refused')");
  thumb.look("refused");
  thumb.until("document.body.innerText.includes('is recorded as out already')");
  thumb.tap("Leave it out");
  thumb.until("document.querySelector('.large')");
  CHECK(lines_with(job, "J06/01 out") == 1);
}

TEST_CASE("every page of the phone keeps to its width and its targets to 48 pixels",
          "[phone][browser]") {
  ServedJob job;
  Thumb thumb(job);
  for (const auto* hash : {"#/", "#/joint/J06", "#/teardown", "#/teardown/J06", "#/tighten/J06",
                           "#/stripe", "#/show", "#/show/J06", "#/show/J06/2"}) {
    INFO(hash);
    thumb.go(hash);
    thumb.evaluate("new Promise((done) => setTimeout(done, 700))");
    CHECK(thumb.evaluate("document.documentElement.scrollWidth") == 360);
    CHECK(thumb.evaluate("[...document.querySelectorAll('a, button, summary, select, "
                         "input[type=text], label.tick')]"
                         ".filter((each) => each.getClientRects().length > 0)"
                         ".filter((each) => each.getBoundingClientRect().height < 48 ||"
                         "                  each.getBoundingClientRect().width < 48)"
                         ".map((each) => each.textContent)") == nlohmann::json::array());
  }
}

// Run by scripts/check_pages, which says where axe-core lies.
TEST_CASE("axe-core finds nothing on any page of the phone", "[.axe]") {
  const char* axe = std::getenv("BOLTWITNESS_AXE");
  REQUIRE(axe != nullptr);
  std::ostringstream rules;
  rules << std::ifstream(axe).rdbuf();
  ServedJob job;
  Thumb thumb(job);
  for (const auto* hash : {"#/", "#/joint/J06", "#/teardown", "#/teardown/J06", "#/tighten/J06",
                           "#/stripe", "#/show", "#/show/J06/2"}) {
    INFO(hash);
    thumb.go(hash);
    thumb.evaluate("new Promise((done) => setTimeout(done, 700))");
    thumb.evaluate(rules.str() + "; 0");
    CHECK(
        thumb.evaluate(
            "axe.run(document, {resultTypes: ['violations']}).then(result => result.violations.map("
            "each => each.impact + ': ' + each.id + ' at ' + each.nodes[0].target))") ==
        nlohmann::json::array());
  }
}

}  // namespace phone_page_test
