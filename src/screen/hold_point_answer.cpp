#include "screen/hold_point_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/hold_point_in_words.h"

namespace screen {
namespace {

using progress::HoldPointState;
using PointStands = HoldPointState::Stands;

constexpr const char* kCautions =
    "A wait proves nothing: isolate, lock, wait it out, then measure that it is dead, with an "
    "instrument tried on a live source before and after. High voltage is for those licensed for "
    "it; the maker's procedure and local rules decide.";

std::string_view word_of(PointStands stands) {
  switch (stands) {
    case PointStands::NotBegun:
      return "not begun";
    case PointStands::Waiting:
      return "waiting";
    case PointStands::WaitOver:
      return "wait over";
    case PointStands::Passed:
      return "passed";
  }
  return "not begun";
}

std::string point_text(const HoldPointState& state, const words::Page& page) {
  const auto& point = *state.point;
  return words::strong(point.code, page) +
         words::wrapped(fmt::format("{}; before {}", point.what, words::what_is_behind(point)),
                        page.width - words::display_width(point.code), "  ", "  ") +
         words::wrapped(words::how_it_stands(state), page.width, "  ", "    ");
}

}  // namespace

std::string hold_points_text(const std::vector<HoldPointState>& states, const words::Page& page) {
  if (states.empty()) return "no hold point was entered so far\n";
  std::string text;
  for (const auto& state : states) text += point_text(state, page);
  return text + '\n' + words::wrapped(kCautions, page.width, "", "");
}

std::string hold_points_json(const std::vector<HoldPointState>& states) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& state : states) {
    const auto& point = *state.point;
    nlohmann::ordered_json row = {{"code", point.code},
                                  {"what", point.what},
                                  {"before", point.joints},
                                  {"wait_s", nullptr},
                                  {"stands", word_of(state.stands)},
                                  {"left_s", state.left.seconds.count()},
                                  {"open_from", nullptr},
                                  {"passed_by", nullptr},
                                  {"passed_at", nullptr},
                                  {"how", nullptr}};
    if (point.wait) row["wait_s"] = point.wait->seconds.count();
    if (state.open_from) row["open_from"] = record::write_utc(*state.open_from);
    if (state.stands == PointStands::Passed) {
      row["passed_by"] = state.last_step->stamp.by;
      row["passed_at"] = record::write_utc(state.last_step->stamp.done_at);
      row["how"] = state.last_step->content.note;
    }
    rows.push_back(std::move(row));
  }
  return json_text(kHoldPointsFormat, {{"hold_points", std::move(rows)}});
}

}  // namespace screen
