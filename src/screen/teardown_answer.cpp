#include "screen/teardown_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <span>

#include "quantity/stated_torque.h"
#include "record/address.h"

namespace screen {
namespace {

std::string place_text(const TeardownPlace& place) {
  return fmt::format("{}, {} of {}", record::write_address(place.joint, place.position),
                     place.place, place.of);
}

std::string prompt(const std::string& asks, const std::string& why, const std::string& keys,
                   const words::Page& page) {
  std::string text = '\n' + words::strong(words::wrapped(asks, page.width, "", "  "), page);
  if (!why.empty()) text += words::wrapped(why, page.width, "  ", "  ");
  return text + words::wrapped(keys + "; ? for more", page.width, "", "");
}

struct Key {
  std::string_view key;
  std::string_view meaning;
};

constexpr Key kSkip{"k", "skip this position for now"};
constexpr Key kWrench{"TW3", "go on with this wrench; a test under way is entered first"};

constexpr Key kBag{"g", "in which bag it goes: asks for it; those that follow here go into it too"};
constexpr Key kNote{"w", "write a note about this one: asks for it"};

constexpr std::array kAtJoint = {
    Key{"Enter", "go on with the test that is under way; where there is none, quit"},
    Key{"J06, J06/1-4", "begin with this joint, or with these positions of it"},
};
constexpr std::array kAtBreakLoose = {
    Key{"Enter", "it broke loose as usual"},
    Key{"t z l r e", "it broke loose tight, seized, was loose, sheared, the hole was empty"},
    Key{"m", "no mark was drawn here"},
    kBag,
    kNote,
    kSkip,
};
constexpr std::array kAtWrench = {Key{"Enter", "the one that covers what is expected, if only one"},
                                  kWrench, kSkip};
constexpr std::array kAtPull = {
    Key{"s o p n",
        "after a pull: the mark is short of the line, on it, past it; the wrench "
        "clicked and nothing moved"},
    Key{"Enter", "take what is proposed: set the wrench so, enter the test so"},
    Key{"72", "a setting of your own: set the wrench to it, then s o p n"},
    Key{"72s 6°", "a pull of your own, if you like with how far the mark still is"},
    Key{"b",
        "from here on it is backed off before each pull, so that it moves as it meets the mark; "
        "else it is pulled setting on setting"},
    Key{"f", "enter the test as it stands, the mark not reached"},
    kBag,
    kNote,
    kWrench,
    kSkip,
};
constexpr Key kElsewhere{"J07",
                         "go to this joint, or J07/5-8; a key that begins a joint's or a wrench's "
                         "name counts with Enter, as do b and n, with which bag and note begin"};
constexpr std::array kEverywhere = {
    Key{"J06-03 60s 70s 75s 80o TW2", "a whole test, of any fastener"},
    Key{"bag 7, note rusty",
        "its bag and those that follow here, a note about it; between two joints of what comes out "
        "next"},
    Key{"u", "take the last answer back; it stays readable, struck"},
    Key{"q", "quit; all of it is kept, and bench goes on where you were"},
};

std::span<const Key> keys_at(BenchPrompt at) {
  switch (at) {
    case BenchPrompt::Joint:
      return kAtJoint;
    case BenchPrompt::BreakLoose:
      return kAtBreakLoose;
    case BenchPrompt::Wrench:
      return kAtWrench;
    case BenchPrompt::Pull:
      return kAtPull;
  }
  return {};
}

}  // namespace

std::string break_loose_prompt(const TeardownPlace& place, bool marked, const Kept& kept,
                               const words::Page& page) {
  std::string with;
  if (!kept.bag.empty()) with = "bag " + kept.bag;
  if (!kept.note.empty()) with += (with.empty() ? "note: " : "; note: ") + kept.note;
  return prompt(fmt::format("{}: {} break it loose with the breaker bar", place_text(place),
                            marked ? "draw the mark, then" : "no mark drawn;"),
                with, "Enter normal, t tight, z seized, l loose, r sheared, e empty", page);
}

std::string pull_prompt(const TeardownPlace& place, const record::Measured& test,
                        const finding::Proposal& proposal, std::optional<double> set,
                        const words::Page& page) {
  const auto on_wrench = [&](std::string_view what, double setting) {
    return fmt::format("{}, {} {} on {}", place_text(place), what,
                       quantity::write_exact(quantity::StatedTorque{setting, test.unit}),
                       test.wrench);
  };
  const std::string so_far =
      test.readings.empty() ? "" : fmt::format("so far {}; ", record::readings_text(test));
  const bool stood_still =
      !test.readings.empty() && test.readings.back().mark == record::Mark::NoMove;
  const std::string marks =
      stood_still && test.restart == record::Restart::Stacked
          ? "s short, o on, p past, n Enter no move; b Enter where it is backed off "
            "before each pull from here, "
            "else it counts as setting on setting"
          : "s short, o on, p past, n Enter no move";
  if (set) return prompt(on_wrench("set to", *set), so_far + "pull until it clicks", marks, page);
  if (const auto* next = std::get_if<finding::NextSetting>(&proposal)) {
    return prompt(on_wrench("next", next->setting), so_far + next->why, marks, page);
  }
  const auto& stop = std::get<finding::Stop>(proposal);
  const bool no_test = stop.reason == finding::StopReason::NoTest;
  return prompt(no_test ? fmt::format("{}, no test", place_text(place))
                        : fmt::format("{}, no further on {}", place_text(place), test.wrench),
                so_far + stop.text,
                !test.readings.empty() ? "Enter enters it so"
                : no_test              ? "k to skip"
                                       : "name another wrench, or k to skip",
                page);
}

std::string wrench_prompt(const TeardownPlace& place, const words::WrenchesForTest& wrenches,
                          const words::Page& page) {
  const auto others = fmt::format("{}", fmt::join(wrenches.others, ", "));
  const auto run_out = fmt::format("{}", fmt::join(wrenches.run_out, ", "));
  std::string asks;
  if (!wrenches.covering.empty()) {
    asks = fmt::format("which wrench? {}", fmt::join(wrenches.covering, ", "));
    if (!run_out.empty()) asks += "; not fit: " + run_out;
    if (!others.empty()) asks += fmt::format("; {} not covered by {}", wrenches.range, others);
    if (wrenches.covering.size() == 1) asks += "; Enter takes " + wrenches.covering.front();
  } else if (!run_out.empty()) {
    asks = fmt::format("no wrench for it is in calibration; which one all the same? {}{}; k skips",
                       run_out, others.empty() ? "" : ", " + others);
  } else {
    asks = fmt::format(
        "no wrench here covers {}, and one that does is needed; which one all the same? {}; k "
        "skips",
        wrenches.range, others);
  }
  return '\n' +
         words::wrapped(fmt::format("{}: {}", place_text(place), asks), page.width, "", "  ");
}

std::string bench_keys(BenchPrompt at, const words::Page& page) {
  std::string text;
  const auto tell = [&](const Key& key) {
    text += words::wrapped(fmt::format("{}: {}", key.key, key.meaning), page.width, "  ", "      ");
  };
  for (const auto& key : keys_at(at)) tell(key);
  if (at != BenchPrompt::Joint) tell(kElsewhere);
  for (const auto& key : kEverywhere) tell(key);
  return text;
}

}  // namespace screen
