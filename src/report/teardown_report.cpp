#include "report/teardown_report.h"

#include <fmt/format.h>

#include <array>

#include "quantity/stated_torque.h"
#include "record/address.h"

namespace report {
namespace {

std::string place_text(const TeardownPlace& place) {
  return fmt::format("{}, {} of {}", record::write_address(place.joint, place.position),
                     place.place, place.of);
}

std::string prompt(const std::string& asks, const std::string& why, const std::string& keys,
                   const Page& page) {
  std::string text = '\n' + strong(wrapped(asks, page.width, "", "  "), page);
  if (!why.empty()) text += wrapped(why, page.width, "  ", "  ");
  return text + wrapped(keys + "; ? for more", page.width, "", "");
}

struct Key {
  std::string_view key;
  std::string_view meaning;
};

constexpr std::array kKeys = {
    Key{"s o p n",
        "after a pull: the mark is short of the line, on it, past it; the wrench "
        "clicked and nothing moved"},
    Key{"Enter", "take what is proposed: set the wrench so, enter the test so, broke normal"},
    Key{"72", "a setting of your own: set the wrench to it, then s o p n"},
    Key{"72s 6°", "a pull of your own, if you like with how far the mark still is"},
    Key{"t z l r e", "it broke loose tight, seized, was loose, sheared, the hole was empty"},
    Key{"m", "no mark was drawn here"},
    Key{"f", "enter the test as it stands, the mark not reached"},
    Key{"TW3", "go on with this wrench; a test under way is entered first"},
    Key{"u", "take the last answer back; it stays readable, struck"},
    Key{"k", "skip this position for now"},
    Key{"J07", "go to this joint, or J07/5-8; after a blank where it begins with a key"},
    Key{"J06-03 60s 70s 75s 80o TW2", "a whole test, of any fastener"},
    Key{"q", "quit; all of it is kept, and bench goes on where you were"},
};

}  // namespace

std::string break_loose_prompt(const TeardownPlace& place, bool marked, const Page& page) {
  return prompt(fmt::format("{}: {} break it loose with the breaker bar", place_text(place),
                            marked ? "draw the mark, then" : "no mark drawn;"),
                "", "Enter normal, t tight, z seized, l loose, r sheared, e empty", page);
}

std::string pull_prompt(const TeardownPlace& place, const record::Measured& test,
                        const finding::Proposal& proposal, std::optional<double> set,
                        const Page& page) {
  const auto on_wrench = [&](std::string_view what, double setting) {
    return fmt::format("{}, {} {} on {}", place_text(place), what,
                       quantity::write_exact(quantity::StatedTorque{setting, test.unit}),
                       test.wrench);
  };
  const std::string so_far =
      test.readings.empty() ? "" : fmt::format("so far {}; ", record::readings_text(test));
  const std::string marks = "s short, o on, p past, n no move";
  if (set) return prompt(on_wrench("set to", *set), so_far + "pull until it clicks", marks, page);
  if (const auto* next = std::get_if<finding::NextSetting>(&proposal)) {
    return prompt(on_wrench("next", next->setting), so_far + next->why, marks, page);
  }
  return prompt(fmt::format("{}, no further on {}", place_text(place), test.wrench),
                so_far + std::get<finding::Stop>(proposal).text,
                test.readings.empty() ? "name another wrench, or k to skip" : "Enter enters it so",
                page);
}

std::string bench_keys(const Page& page) {
  std::string text;
  for (const auto& [key, meaning] : kKeys) {
    text += wrapped(fmt::format("{}: {}", key, meaning), page.width, "  ", "      ");
  }
  return text;
}

}  // namespace report
