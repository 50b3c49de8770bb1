// Whole jobs by the thumb while the link comes and goes and the server is killed, and several at
// once: short among the others, long in scripts/torture.

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <random>
#include <thread>

#include "phone/served_here.h"
#include "phone/served_program.h"
#include "phone/thumb.h"
#include "support/torture.h"

namespace phone_torture_test {

namespace {

using namespace std::chrono_literals;

// Ends and kills the server at random moments, and starts it again a random moment later, on a
// thread of its own: nothing waits for it.
class Weather {
 public:
  Weather(ServedProgram& served, std::size_t most, std::uint32_t seed)
      : served_(served), most_(most), chance_(seed), thread_([this] { blow(); }) {}
  ~Weather() {
    is_over_ = true;
    thread_.join();
  }
  Weather(const Weather&) = delete;
  Weather& operator=(const Weather&) = delete;

  [[nodiscard]] bool is_done() const { return cuts_ >= most_; }
  [[nodiscard]] std::size_t cuts() const { return cuts_; }
  [[nodiscard]] std::size_t kills() const { return kills_; }

 private:
  void blow() {
    while (!is_over_ && !is_done()) {
      std::this_thread::sleep_for(std::chrono::milliseconds(200 + chance_() % 1'800));
      const bool is_killed = cuts_ % 4 == 3;
      is_killed ? served_.kill() : served_.cut();
      std::this_thread::sleep_for(std::chrono::milliseconds(chance_() % 400));
      served_.serve();
      ++cuts_;
      if (is_killed) ++kills_;
    }
  }

  ServedProgram& served_;
  std::size_t most_;
  std::minstd_rand chance_;
  std::atomic<std::size_t> cuts_ = 0;
  std::atomic<std::size_t> kills_ = 0;
  std::atomic<bool> is_over_ = false;
  std::thread thread_;
};

std::string address(const std::string& joint, int position) {
  return fmt::format("{}/{:02}", joint, position);
}

// A joint from teardown to stripe; what each tap is to be in the logbook.
void do_joint(Thumb& thumb, const std::string& joint, int count, std::vector<std::string>& lines) {
  thumb.go("#/teardown/" + joint);
  const auto figure = "parseFloat(document.querySelector('.large').textContent)";
  for (int position = 1; position <= count; ++position) {
    const auto here = address(joint, position);
    thumb.until(fmt::format("{}.startsWith('{}')", kHeading, here));
    thumb.tap("It came loose");
    lines.push_back(here + " out, broke normal");
    thumb.until(fmt::format("{}.startsWith('{}') && {} > 0", kHeading, here, figure));
    // Short until it is near, as a bolt of 80 N·m would be.
    std::string readings;
    for (bool is_on = false; !is_on;) {
      const double setting = thumb.evaluate(figure).get<double>();
      is_on = setting >= 78.0;
      thumb.tap(is_on ? "On" : "Short");
      readings += fmt::format("{}{}{}", readings.empty() ? "" : " ", setting, is_on ? "o" : "s");
      lines.push_back(is_on ? fmt::format("{} {} on TW2", here, readings)
                            : fmt::format("{} pull {}s on TW2", here, setting));
      if (!is_on) thumb.until(fmt::format("{} > {}", figure, setting));
    }
  }
  thumb.until("document.body.innerText.includes('All of it is out and tested.')");
  thumb.until_sent();
  thumb.go("#/tighten/" + joint);
  for (int step = 0; step < 2 * count; ++step) {
    thumb.until(fmt::format("{}.startsWith('{}/') && document.querySelector('[data-key=Done]')",
                            kHeading, joint));
    const auto heading = thumb.evaluate(kHeading).get<std::string>();
    thumb.tap("Done");
    lines.push_back(
        fmt::format("{} pass {}", heading.substr(0, heading.find(' ')), step < count ? 1 : 2));
    thumb.until(fmt::format("{} !== {}", kHeading, nlohmann::json(heading).dump()));
  }
  thumb.until_sent();
  thumb.go("#/stripe");
  thumb.tap("Drawn on " + joint);
  lines.push_back(fmt::format("{}/1-{} final stripe", joint, count));
  thumb.until("document.body.innerText.includes('No final stripe is due.')");
  thumb.until_sent();
}

// The lines that phones wrote, as they stand in the logbook.
std::vector<std::string> lines_by(ServedJob& job, const std::vector<std::string>& who) {
  auto all = job.trial.done("history --json").json()["lines"];
  std::vector<std::pair<int, std::string>> lines;
  for (const auto& line : all) {
    if (std::ranges::find(who, line["by"].get<std::string>()) == who.end()) continue;
    lines.emplace_back(line["line"].get<int>(), line["says"].get<std::string>());
  }
  std::ranges::sort(lines);
  std::vector<std::string> says;
  for (auto& line : lines) says.push_back(std::move(line.second));
  return says;
}

void declare_joint(ServedJob& job, const std::string& joint, int count) {
  job.trial.done(fmt::format(
      "joint {} --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count {} --layout line --spec "
      "'40 N·m, 80 N·m' --source 'GB-1 Shop Manual p. 12' --condition oiled",
      joint, count));
}

}  // namespace

TEST_CASE("every deed tapped while the link comes and goes is in the logbook once and in order",
          "[phone][torture][browser]") {
  const auto cuts = trials(4, 100);
  const int count = static_cast<int>(trials(2, 8));
  std::size_t taps = 0;
  std::size_t all_cuts = 0;
  std::size_t kills = 0;
  std::size_t faults = 0;
  for (const auto& [width, height] : {std::pair{360, 740}, std::pair{1280, 900}}) {
    ServedJob job;
    std::vector<std::string> joints;
    for (int number = 11; number < 31; ++number) {
      joints.push_back(fmt::format("J{}", number));
      declare_joint(job, joints.back(), count);
    }
    ServedProgram served(job.trial.folder().file("job.bolts"), job.trial.folder().path() / "own");
    Thumb thumb(served.port(), served.code(), "RM", width, height);
    thumb.patience = 120'000;
    std::vector<std::string> expected;
    {
      Weather weather(served, cuts, 20'261'128U + static_cast<unsigned>(width));
      for (const auto& joint : joints) {
        do_joint(thumb, joint, count, expected);
        if (weather.is_done()) break;
      }
      CHECK(weather.is_done());
      all_cuts += weather.cuts();
      kills += weather.kills();
    }
    thumb.until_sent();
    served.cut();
    const auto lines = lines_by(job, {"RM"});
    REQUIRE(lines.size() == expected.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (!lines[i].starts_with(expected[i])) ++faults;
      CHECK_THAT(lines[i], Catch::Matchers::StartsWith(expected[i]));
    }
    CHECK(job.trial.done("verify").code == 0);
    taps += expected.size();
  }
  tell_torture("phone: taps while the link is cut and the server killed", taps,
               fmt::format("{} cuts, {} of them kills", all_cuts, kills), faults);
}

TEST_CASE("two browsers and a terminal write at once and see each other's lines",
          "[phone][torture][browser]") {
  const int rounds = static_cast<int>(trials(4, 400));
  ServedJob job;
  for (const auto* joint : {"J21", "J22", "J23"}) declare_joint(job, joint, rounds + 2);
  ServedHere served(job);
  Thumb one(served.port(), served.code(), "RM");
  Thumb two(served.port(), served.code(), "TS", 1280, 900);
  for (auto* thumb : {&one, &two}) thumb->patience = 900'000;
  one.go("#/teardown/J21");
  two.go("#/teardown/J22");
  const auto take_out = [](Thumb& thumb, const std::string& joint, int position) {
    thumb.until(fmt::format("{}.startsWith('{}')", kHeading, address(joint, position)));
    thumb.tap("Sheared");
  };
  int from_terminal = 0;
  for (int i = 1; i <= rounds; ++i) {
    take_out(one, "J21", i);
    take_out(two, "J22", i);
    if (i % 2 == 0) {
      job.trial.done(fmt::format("out J23/{}", ++from_terminal));
    }
  }
  one.until_sent();
  two.until_sent();
  CHECK(lines_by(job, {"RM"}).size() == static_cast<std::size_t>(rounds));
  CHECK(lines_by(job, {"TS"}).size() == static_cast<std::size_t>(rounds));
  for (const auto& [who, joint] : {std::pair{"RM", "J21"}, std::pair{"TS", "J22"}}) {
    const auto lines = lines_by(job, {who});
    for (int i = 1; i <= rounds; ++i) {
      CHECK_THAT(lines[static_cast<std::size_t>(i - 1)],
                 Catch::Matchers::StartsWith(address(joint, i) + " out"));
    }
  }
  // What the one writes, and the terminal, the other sees without asking.
  two.go("#/teardown/J21");
  two.until(fmt::format("{}.startsWith('{}')", kHeading, address("J21", rounds + 1)));
  const auto begun = std::chrono::steady_clock::now();
  job.trial.done(fmt::format("out J21/{} --broke sheared", rounds + 1));
  two.until(fmt::format("{}.startsWith('{}')", kHeading, address("J21", rounds + 2)));
  one.until(fmt::format("{}.startsWith('{}')", kHeading, address("J21", rounds + 2)));
  const auto seen = std::chrono::duration_cast<std::chrono::milliseconds>(
      std::chrono::steady_clock::now() - begun);
  CHECK(job.trial.done("verify").code == 0);
  const auto deeds = static_cast<std::size_t>(2 * rounds + from_terminal);
  tell_torture("phone: two browsers and a terminal", deeds,
               fmt::format("seen by both after {} ms", seen.count()), 0);
}

// The same eight fasteners as at the bench (tests/program/key_count_test.cpp): a tap for each key
// that answers there, and none besides.
TEST_CASE("a joint of eight takes no more taps on the phone than keys at the bench",
          "[phone][slow][browser]") {
  constexpr std::array kHeld = {44.0, 41.5, 47.0, 43.0, 45.5, 49.0, 42.5, 46.0};
  constexpr int kMostKeysAtTheBench = 53;
  ServedJob job;
  job.trial.done("wrench TW3 --range '10..100 N·m' --graduation '1 N·m' --calibrated 2026-05-02");
  job.trial.done(
      "joint J08 --holds 'bearing cap' --size M10 --length 45mm --grade 8.8 --count 8 --spec '45 "
      "±5 N·m'");
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.go("#/teardown/J08");
  const auto figure = "parseFloat(document.querySelector('.large').textContent)";
  int pulls = 0;
  for (std::size_t i = 0; i < kHeld.size(); ++i) {
    const auto here = address("J08", static_cast<int>(i) + 1);
    thumb.until(fmt::format("{}.startsWith('{}')", kHeading, here));
    thumb.tap("It came loose");
    if (i == 0)
      thumb.until("document.body.innerText.includes('Which wrench?') || " + std::string(figure) +
                  " > 0");
    if (i == 0 && thumb.evaluate("document.body.innerText.includes('Which wrench?')") == true) {
      thumb.tap("TW3");
    }
    thumb.until(std::string(figure) + " > 0");
    for (bool is_reached = false; !is_reached;) {
      const double setting = thumb.evaluate(figure).get<double>();
      ++pulls;
      is_reached = setting >= kHeld[i] * 0.985;
      thumb.tap(!is_reached ? "Short" : setting <= kHeld[i] * 1.015 ? "On" : "Past");
      if (!is_reached) thumb.until(fmt::format("{} > {}", figure, setting));
    }
  }
  thumb.until("document.body.innerText.includes('All of it is out and tested.')");
  thumb.until_sent();
  CAPTURE(pulls, thumb.taps);
  CHECK(thumb.taps <= kMostKeysAtTheBench);
  tell_torture("phone: taps for the teardown of a joint of eight",
               static_cast<std::size_t>(thumb.taps), fmt::format("{} pulls", pulls), 0);
}

}  // namespace phone_torture_test
