#include "report/hold_point_report.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "report/json_text.h"

namespace report {
namespace {

using progress::HoldPointState;
using Stands = HoldPointState::Stands;

constexpr const char* kCautions =
    "A wait proves nothing: isolate, lock, wait it out, then measure that it is dead, with an "
    "instrument tried on a live source before and after. High voltage is for those licensed for "
    "it; the maker's procedure and local rules decide.";

std::string_view word_of(Stands stands) {
  switch (stands) {
    case Stands::NotBegun:
      return "not begun";
    case Stands::Waiting:
      return "waiting";
    case Stands::WaitOver:
      return "wait over";
    case Stands::Passed:
      return "passed";
  }
  return "not begun";
}

std::string point_text(const HoldPointState& state, const Page& page) {
  const auto& point = *state.point;
  return strong(point.code, page) +
         wrapped(fmt::format("{}; before {}", point.what, what_is_behind(point)),
                 page.width - display_width(point.code), "  ", "  ") +
         wrapped(how_it_stands(state), page.width, "  ", "    ");
}

}  // namespace

std::string what_is_behind(const record::HoldPoint& point) {
  return point.joints.empty() ? "all joints" : fmt::format("{}", fmt::join(point.joints, ", "));
}

std::string how_it_stands(const HoldPointState& state) {
  const auto& point = *state.point;
  switch (state.stands) {
    case Stands::NotBegun:
      return point.wait
                 ? fmt::format("not begun; hold-point {} --begin starts the wait of {}", point.code,
                               record::write_exact(*point.wait))
                 : fmt::format("not passed; once it is proved: hold-point {} --pass", point.code);
    case Stands::Waiting:
      return fmt::format("waiting: {} left, to {}", record::write_rounded(state.left),
                         record::write_local(*state.open_from));
    case Stands::WaitOver:
      return fmt::format("the wait is over; once it is proved: hold-point {} --pass", point.code);
    case Stands::Passed:
      break;
  }
  const auto& step = *state.last_step;
  return fmt::format("passed by {}, {}{}", step.stamp.by, record::write_local(step.stamp.done_at),
                     step.content.note.empty() ? "" : ": " + step.content.note);
}

std::string hold_points_text(const std::vector<HoldPointState>& states, const Page& page) {
  if (states.empty()) return "no hold point was entered so far\n";
  std::string text;
  for (const auto& state : states) text += point_text(state, page);
  return text + '\n' + wrapped(kCautions, page.width, "", "");
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
    if (state.stands == Stands::Passed) {
      row["passed_by"] = state.last_step->stamp.by;
      row["passed_at"] = record::write_utc(state.last_step->stamp.done_at);
      row["how"] = state.last_step->content.note;
    }
    rows.push_back(std::move(row));
  }
  return json_text({{"hold_points", std::move(rows)}});
}

}  // namespace report
