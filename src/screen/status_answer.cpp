#include "screen/status_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>

#include "finding/not_to_be_tested.h"
#include "progress/due_rechecks.h"
#include "record/address.h"
#include "screen/audit_answer.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/deviation_in_words.h"
#include "words/joint_in_short.h"
#include "words/next_step.h"
#include "words/recheck_in_words.h"

namespace screen {
namespace {

constexpr std::size_t kMostOpenPoints = 4;
constexpr std::size_t kMostJointRows = 16;
constexpr std::size_t kMostToSettle = 4;
constexpr std::size_t kWidestPlace = 20;  // of where a joint's fasteners are
constexpr std::size_t kNarrowPlace = 8;   // the same on less than 80 columns
constexpr std::size_t kLeastSeeTo = 6;    // narrower than this it says nothing

std::string more_than(std::size_t shown, std::size_t of, const words::Page& page) {
  return and_more(of - shown, "status --whole", page, "  ");
}

std::string of_all(int count, int of) { return of == 0 ? "-" : fmt::format("{} of {}", count, of); }

std::string out_text(const progress::JointCount& count) {
  return count.found_empty == 0 ? std::to_string(count.out)
                                : fmt::format("{} + {} empty", count.out, count.found_empty);
}

std::string tested_text(const finding::JointState& joint) {
  const bool is_tested = std::ranges::any_of(joint.positions, [&](const auto& position) {
    return finding::not_to_be_tested(joint, position.position).empty();
  });
  return is_tested ? std::to_string(std::ranges::count_if(
                         joint.positions,
                         [](const auto& position) { return position.finding() != nullptr; }))
                   : "-";
}

// A row of the joints: what is counted, then what is read.
struct JointRow {
  std::vector<std::string> counts;
  words::JointInShort in_short;
  const finding::JointState* joint = nullptr;

  [[nodiscard]] bool is_done() const { return in_short.next == "done" && in_short.see_to.empty(); }
};

// The joints that have to be seen to first, then those that are not done, then the others; each
// kind in its own order.
std::vector<JointRow> most_urgent(std::vector<JointRow> rows, std::size_t most,
                                  const std::string& at_hand) {
  if (rows.size() <= most) return rows;
  std::vector<const JointRow*> by_need;
  by_need.reserve(rows.size());
  for (const auto& row : rows) by_need.push_back(&row);
  const auto need = [&](const JointRow* row) {
    if (record::same_code(row->joint->joint->code, at_hand)) return 0;
    if (!row->in_short.see_to.empty()) return 1;
    return row->is_done() ? 3 : 2;
  };
  std::ranges::stable_sort(by_need, {}, need);
  by_need.resize(most);
  std::ranges::sort(by_need);  // as they stood
  std::vector<JointRow> shown;
  shown.reserve(most);
  for (const auto* row : by_need) shown.push_back(*row);
  return shown;
}

// What is counted of a joint while the machine comes apart, and when it goes back: what a narrow
// page can do without comes last.
std::vector<std::string> count_titles(bool is_taken_apart) {
  return is_taken_apart ? std::vector<std::string>{"of", "out", "tested"}
                        : std::vector<std::string>{"of", "passes", "striped", "second"};
}

JointRow joint_row(const progress::JointCount& count, const words::JointsInShort& in_short) {
  const auto& joint = *count.joint->joint;
  JointRow row{{std::to_string(joint.count)}, in_short.of(*count.joint), count.joint};
  if (in_short.is_taken_apart()) {
    row.counts.push_back(out_text(count));
    row.counts.push_back(tested_text(*count.joint));
  } else {
    row.counts.push_back(of_all(count.passes, count.passes_planned));
    row.counts.push_back(count.planned == 0 ? "-" : std::to_string(count.striped));
    row.counts.push_back(joint.critical ? std::to_string(count.checked) : "-");
  }
  return row;
}

Table table_of(const std::vector<JointRow>& rows, std::span<const std::string> titles,
               std::size_t widest_place, std::optional<std::size_t> see_to) {
  Table table;
  table.column("joint");
  for (const auto& title : titles) table.column(title, Table::Align::Right);
  table.column("where");
  table.column("next");
  if (see_to) table.column("see to");
  for (const auto& row : rows) {
    std::vector<std::string> cells = {row.joint->joint->code};
    for (const auto& count : std::span(row.counts).first(titles.size())) cells.push_back(count);
    cells.push_back(words::shortened(row.in_short.where, widest_place));
    cells.push_back(row.in_short.next);
    if (see_to) cells.push_back(words::shortened(row.in_short.see_to, *see_to));
    table.row(std::move(cells));
  }
  return table;
}

// What has to be seen to is cut to what is left of the line, since the first lines name it whole. A
// narrow page is without the last of what is counted, and without that where it has no room even
// so.
std::string joint_table(const std::vector<JointRow>& rows, bool is_taken_apart,
                        const words::Page& page) {
  constexpr std::size_t kRowIndent = 2;
  constexpr std::size_t kLeastCounts = 2;
  const auto titles = count_titles(is_taken_apart);
  const auto place = page.width < 80 ? kNarrowPlace : kWidestPlace;
  std::optional<std::string> without;  // with the most that can be counted
  for (auto count = titles.size(); count >= kLeastCounts; --count) {
    const auto counted = std::span(titles).first(count);
    const auto plain = table_of(rows, counted, place, std::nullopt);
    const auto taken = kRowIndent + plain.width();
    if (taken > page.width) continue;
    const auto room = page.width - taken;
    const bool has_any =
        std::ranges::any_of(rows, [](const JointRow& row) { return !row.in_short.see_to.empty(); });
    if (!without) without = plain.text("  ");
    if (!has_any) return *without;
    if (room < kLeastSeeTo + 2) continue;
    return table_of(rows, counted, place, room - 2).text("  ");
  }
  if (without) return *std::move(without);
  return table_of(rows, std::span(titles).first(kLeastCounts), place, std::nullopt)
      .fitted("  ", page.width);
}

std::string joints_text(const JobStatus& status, const words::JointsInShort& in_short,
                        const std::string& at_hand, bool whole, const words::Page& page) {
  std::vector<JointRow> rows;
  for (const auto& count : progress::joint_counts(status.reassembly)) {
    rows.push_back(joint_row(count, in_short));
  }
  const auto all = rows.size();
  const auto most = whole ? all : shown_of(all, kMostJointRows);
  const auto shown = most_urgent(std::move(rows), most, at_hand);
  return joint_table(shown, in_short.is_taken_apart(), page) + more_than(shown.size(), all, page);
}

std::string counted_passes(std::size_t count) {
  return count == 1 ? "1 pass open" : fmt::format("{} passes open", count);
}

std::string counted_kind(progress::OpenKind kind, std::size_t count) {
  using progress::OpenKind;
  switch (kind) {
    case OpenKind::HoldPoint:
      return words::counted(count, "hold point") + " shut";
    case OpenKind::TestUnderWay:
      return words::counted(count, "test") + " under way";
    case OpenKind::NewFastener:
      return words::counted(count, "joint") + " waiting for new fasteners";
    case OpenKind::OldIn:
      return words::counted(count, "joint") + " with the old fasteners in";
    case OpenKind::Spent:
      return words::counted(count, "joint") + " with spent fasteners in";
    case OpenKind::StripeTurned:
      return words::counted(count, "joint") + " with a turned stripe";
    case OpenKind::NotTold:
      return words::counted(count, "look") + " not told";
    case OpenKind::Pass:
      return counted_passes(count);
    case OpenKind::SecondPerson:
      return words::counted(count, "joint") + " without a second person";
    case OpenKind::Stripe:
      return words::counted(count, "joint") + " without final stripes";
    case OpenKind::CounterReading:
      return words::counted(count, "counter reading") + " missing";
    case OpenKind::ItemBeforeJoint:
      return words::counted(count, "item") + " to go back before a joint";
    case OpenKind::Item:
      return words::counted(count, "item") + " not back";
    case OpenKind::Fluid:
      break;
  }
  return words::counted(count, "fluid") + " not back";
}

// What a row of the joints says too, and what is not due while the machine comes apart.
bool is_in_rows(progress::OpenKind kind) {
  using progress::OpenKind;
  return kind == OpenKind::Pass || kind == OpenKind::SecondPerson || kind == OpenKind::Stripe;
}

// "41 of 92 fasteners out".
std::string how_far_apart(const progress::Reassembly& reassembly) {
  int out = 0;
  int all = 0;
  for (const auto& count : progress::joint_counts(reassembly)) {
    out += count.out;
    all += count.joint->joint->count - count.found_empty;
  }
  return fmt::format("{} of {} out", out,
                     words::counted(static_cast<std::size_t>(all), "fastener"));
}

// "2 holds open, 1 check to settle, 1 hold point shut, 3 passes open".
std::string what_is_open(const JobStatus& status) {
  const bool is_taken_apart = words::TakingApart(status.reassembly).goes_on();
  std::vector<std::string> parts;
  if (is_taken_apart) parts.push_back(how_far_apart(status.reassembly));
  std::ranges::move(words::to_settle_in_words(status.audit), std::back_inserter(parts));
  const auto to_do = status.audit.to_do.size();
  if (to_do > 0) parts.push_back(fmt::format("{} decided and not done", to_do));
  std::map<progress::OpenKind, std::size_t> kinds;
  for (const auto& point : status.open) {
    if (!is_taken_apart || !is_in_rows(point.kind)) ++kinds[point.kind];
  }
  // They come after it.
  if (kinds.contains(progress::OpenKind::Pass)) {
    kinds.erase(progress::OpenKind::SecondPerson);
    kinds.erase(progress::OpenKind::Stripe);
  }
  for (const auto& [kind, count] : kinds) parts.push_back(counted_kind(kind, count));
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::vector<std::string> ids_of(const std::vector<const audit::Deviation*>& deviations) {
  std::vector<std::string> ids;
  ids.reserve(deviations.size());
  for (const auto* deviation : deviations) ids.push_back(deviation->id);
  return ids;
}

// "found-low:J08/05, found-high:J12/03", and where the rest stands.
std::string listed(const std::vector<std::string>& all, bool whole) {
  const auto shown = whole ? all.size() : shown_of(all.size(), kMostToSettle);
  auto text = fmt::format("{}", fmt::join(std::span(all).first(shown), ", "));
  if (shown < all.size()) {
    text += fmt::format(" and {} more: boltwitness audit", all.size() - shown);
  }
  return text;
}

// Which bolt is wrong: the ids of what is to be settled, and what was decided and is not done.
std::string what_is_wrong(const JobStatus& status, bool whole, const words::Page& page) {
  std::string text;
  const auto tell = [&](std::string_view title, const std::vector<std::string>& all) {
    if (all.empty()) return;
    text += words::wrapped(fmt::format("{}: {}", title, listed(all, whole)), page.width, "", "  ");
  };
  tell("to settle", ids_of(audit::in_the_way(status.audit)));
  std::vector<std::string> decided;
  for (const auto& work : status.audit.to_do) {
    const auto& what = work.decision->content;
    decided.push_back(fmt::format(
        "{} {}", work.open.empty() ? what.deviation : record::write_address(what.joint, work.open),
        record::word_of(what.decision)));
  }
  tell("to do", decided);
  return text;
}

// What is open besides; what the rows say too comes last, and not at all before it is due.
std::vector<std::string> points_of(const JobStatus& status, bool is_taken_apart, bool whole) {
  std::vector<std::string> points;
  std::vector<std::string> in_rows;
  for (const auto& point : status.open) {
    (is_in_rows(point.kind) ? in_rows : points).push_back(point.says);
  }
  if (!is_taken_apart || whole) std::ranges::move(in_rows, std::back_inserter(points));
  return points;
}

// The look at final stripes that comes first; empty where none is asked for.
std::string next_look(const JobStatus& status) {
  const auto& reassembly = status.reassembly;
  const auto due = progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress,
                                          status.now, std::nullopt);
  return due.empty() ? std::string() : words::due_in_words(due.front(), status.now);
}

words::NextStep next_of(const JobStatus& status) {
  return words::next_step(status.reassembly, status.open, status.audit, status.now, status.circle);
}

std::string in_short_text(const JobStatus& status, const words::NextStep& next, bool whole,
                          const words::Page& page) {
  const auto line = [&](const std::string& says) {
    return words::wrapped(words::strong(says, page), page.width, "", "  ");
  };
  const auto looks = audit::looks_due(status.audit).size();
  std::string text = !status.has_joints() ? line("Not begun: nothing entered yet")
                     : status.is_finished()
                         ? line("Finished: nothing is open" +
                                (looks == 0 ? std::string()
                                            : ", " + words::counted(looks, "look") + " due again") +
                                words::left_to_read(status.audit))
                         : line("Not finished: " + what_is_open(status));
  text += what_is_wrong(status, whole, page);
  if (!next.command.empty()) {
    text += words::wrapped(fmt::format("next: boltwitness {}", next.command), page.width, "", "  ");
  }
  if (!next.why.empty()) text += words::wrapped(next.why, page.width, "      ", "      ");
  // An open pass names it already.
  if (!next.wrench.empty() && next.why.find(next.wrench) == std::string::npos) {
    text += words::wrapped("wrench: " + next.wrench, page.width, "      ", "        ");
  }
  if (next.command.empty() && status.is_finished()) {
    if (const auto look = next_look(status); !look.empty()) {
      text += words::wrapped("next look: " + look, page.width, "", "  ");
    }
  }
  return text;
}

}  // namespace

std::string status_in_short(const JobStatus& status, const words::Page& page) {
  return in_short_text(status, next_of(status), false, page);
}

std::string status_text(const JobStatus& status, bool whole, const words::Page& page) {
  const auto next = next_of(status);
  std::string text = in_short_text(status, next, whole, page);
  const words::JointsInShort in_short(status.reassembly, status.open, status.audit,
                                      record::local_day(status.now));
  const auto points = points_of(status, in_short.is_taken_apart(), whole);
  const auto shown = whole ? points.size() : shown_of(points.size(), kMostOpenPoints);
  // One alone is what the next step is about.
  if (points.size() + audit::in_the_way(status.audit).size() + status.audit.to_do.size() > 1) {
    for (const auto& point : std::span(points).first(shown)) {
      text += words::wrapped(point, page.width, "  - ", "    ");
    }
    text += more_than(shown, points.size(), page);
  }
  text += '\n' + words::wrapped(status.reassembly.job.start.machine, page.width, "", "  ");
  if (!status.has_joints()) return text;
  return text + joints_text(status, in_short, next.joint, whole, page);
}

std::string status_json(const JobStatus& status) {
  const auto& reassembly = status.reassembly;
  auto points = nlohmann::ordered_json::array();
  for (const auto& point : status.open) {
    points.push_back({{"joint", point.joint.empty() ? nlohmann::ordered_json(nullptr)
                                                    : nlohmann::ordered_json(point.joint)},
                      {"says", point.says},
                      {"command", point.command}});
  }
  auto joints = nlohmann::ordered_json::array();
  const words::JointsInShort joints_in_short(reassembly, status.open, status.audit,
                                             record::local_day(status.now));
  for (const auto& count : progress::joint_counts(reassembly)) {
    const auto in_short = joints_in_short.of(*count.joint);
    joints.push_back({{"joint", count.joint->joint->code},
                      {"count", count.joint->joint->count},
                      {"out", count.out},
                      {"final_value", count.final_value},
                      {"second_check", count.checked},
                      {"striped", count.striped},
                      {"where", in_short.where},
                      {"next", in_short.next},
                      {"see_to", in_short.see_to}});
  }
  auto bags = nlohmann::ordered_json::array();
  for (const auto& count : progress::bag_counts(reassembly)) {
    bags.push_back({{"bag", count.bag},
                    {"out", count.out},
                    {"back", count.back},
                    {"left", count.out - count.back}});
  }
  const auto next = next_of(status);
  return json_text(
      kStatusFormat,
      {{"finished", status.is_finished()},
       {"next", {{"command", next.command}, {"why", next.why}, {"wrench", next.wrench}}},
       {"to_settle", ids_of(audit::in_the_way(status.audit))},
       {"looks_due", ids_of(audit::looks_due(status.audit))},
       {"to_do", to_do_json(status.audit)},
       {"open", std::move(points)},
       {"joints", std::move(joints)},
       {"bags", std::move(bags)}});
}

}  // namespace screen
