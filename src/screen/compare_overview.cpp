#include "screen/compare_overview.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <map>
#include <span>
#include <utility>

#include "record/address.h"
#include "record/current_decisions.h"
#include "screen/cut_list.h"
#include "screen/table.h"
#include "words/found_value.h"
#include "words/joint_heading.h"
#include "words/verdict_text.h"

namespace screen {
namespace {

using finding::Finding;
using finding::JointState;
using finding::PositionState;
using finding::Verdict;

constexpr std::size_t kMostRows = 20;    // of one group
constexpr std::size_t kMostJoints = 12;  // in the list of what was not tested

// The groups in the order in which they are told.
enum class Group : std::size_t { Outside, Undecided, NotComparable, Within, kCount };

constexpr std::array<std::string_view, static_cast<std::size_t>(Group::kCount)> kTitles = {
    "outside", "undecided", "not comparable", "within"};

Group group_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::Low:
    case Verdict::High:
      return Group::Outside;
    case Verdict::Undecided:
      return Group::Undecided;
    case Verdict::NotComparable:
      return Group::NotComparable;
    case Verdict::Within:
      break;
  }
  return Group::Within;
}

// What became of a position since it was tested.
class SinceTested {
 public:
  explicit SinceTested(const record::Job& job) {
    for (const auto& entry : job.tightenings) {
      if (!record::is_work(entry.content)) continue;
      const auto code = record::folded_code(entry.content.joint);
      for (const int position : entry.content.positions) {
        auto& last = tightened_[{code, position}];
        if (last == nullptr || record::is_later(entry.stamp, last->stamp)) last = &entry;
      }
    }
    for (const auto& [entry, positions] : record::current_decisions(job)) {
      const auto code = record::folded_code(entry->content.joint);
      for (const int position : positions) decided_[{code, position}] = entry;
    }
  }

  // To no less than its limits allow.
  [[nodiscard]] bool is_tightened(const JointState& joint, const PositionState& position) const {
    const auto* last = last_since(joint, position);
    if (last == nullptr) return false;
    const auto applied = record::applied_torque(last->content);
    const auto& window = position.finding()->window;
    return !window || !window->low || !applied || *applied >= *window->low;
  }

  // "tightened", "begun" where its last pass was below that, else the word of the decision, else
  // "-".
  [[nodiscard]] std::string text(const JointState& joint, const PositionState& position) const {
    if (is_tightened(joint, position)) return "tightened";
    if (last_since(joint, position) != nullptr) return "begun";
    const auto found = decided_.find(key(joint, position));
    return found == decided_.end() ? "-"
                                   : std::string(record::word_of(found->second->content.decision));
  }

 private:
  using Key = std::pair<std::string, int>;  // folded code, position
  static Key key(const JointState& joint, const PositionState& position) {
    return {record::folded_code(joint.joint->code), position.position};
  }

  // The last work on it, where that was done after its test.
  [[nodiscard]] const record::Entry<record::Tightening>* last_since(
      const JointState& joint, const PositionState& position) const {
    const auto found = tightened_.find(key(joint, position));
    const bool is_since = found != tightened_.end() &&
                          record::is_later(found->second->stamp, position.finding()->entry->stamp);
    return is_since ? found->second : nullptr;
  }

  std::map<Key, const record::Entry<record::Tightening>*> tightened_;
  std::map<Key, const record::Entry<record::Disposition>*> decided_;
};

// One line: the positions of a joint whose cells are the same.
struct Row {
  const JointState* joint = nullptr;
  std::vector<int> positions;
  std::vector<std::string> cells;
};

std::vector<std::string> cells_of(const JointState& joint, const PositionState& position,
                                  const Finding& finding) {
  const auto unit = quantity::name_of(joint.unit);
  const auto limits = finding.window ? words::limits_words(*finding.window, joint.unit) : "";
  return {fmt::format("{} {}", words::found_words(finding.torque, joint.unit), unit),
          words::verdict_word(position, finding),
          limits.empty() ? "-" : fmt::format("{} {}", limits, unit),
          finding.ratio ? fmt::format("{:.2f}", *finding.ratio) : "-",
          std::string(1, finding::letter_of(finding.graded.grade))};
}

// What the joints come to.
class Overview {
 public:
  Overview(const record::Job& job, const std::vector<const JointState*>& joints) : since_(job) {
    for (const auto* joint : joints) add(*joint);
  }

  [[nodiscard]] std::string text(bool whole, const words::Page& page) const {
    std::string text = words::wrapped(words::strong(counts(), page), page.width, "", "  ");
    for (std::size_t group = 0; group < kTitles.size(); ++group) {
      text += group_text(group, whole, page);
    }
    return text + untested_text(whole, page);
  }

 private:
  void add(const JointState& joint) {
    std::vector<int> untested;
    for (const auto& position : joint.positions) {
      const auto* finding = position.finding();
      if (finding == nullptr) {
        untested.push_back(position.position);
        continue;
      }
      add(joint, position, *finding);
    }
    positions_ += joint.positions.size();
    not_tested_ += untested.size();
    if (!untested.empty()) {
      untested_.push_back(record::write_address(joint.joint->code, untested));
    }
  }

  static bool is_told_since(std::size_t group) {
    return group == static_cast<std::size_t>(Group::Outside) ||
           group == static_cast<std::size_t>(Group::Undecided);
  }

  // What is outside or undecided has a line of its own.
  void add(const JointState& joint, const PositionState& position, const Finding& finding) {
    const auto group = group_of(finding.verdict);
    auto& rows = rows_[static_cast<std::size_t>(group)];
    ++tested_[static_cast<std::size_t>(group)];
    auto cells = cells_of(joint, position, finding);
    if (is_told_since(static_cast<std::size_t>(group))) {
      cells.push_back(since_.text(joint, position));
      if (group == Group::Outside && since_.is_tightened(joint, position)) ++outside_tightened_;
    }
    const bool is_joined = group == Group::Within || group == Group::NotComparable;
    const auto alike = std::ranges::find_if(rows, [&](const Row& row) {
      return is_joined && row.joint == &joint && row.cells == cells;
    });
    if (alike != rows.end()) {
      alike->positions.push_back(position.position);
    } else {
      rows.push_back({&joint, {position.position}, std::move(cells)});
    }
  }

  [[nodiscard]] std::string counts() const {
    std::string text = fmt::format("{} of {} tested", positions_ - not_tested_,
                                   words::counted(positions_, "position"));
    for (std::size_t group = 0; group < kTitles.size(); ++group) {
      text += fmt::format("{} {} {}", group == 0 ? ":" : ",", tested_[group], kTitles[group]);
      if (group == 0 && outside_tightened_ > 0) {
        text += fmt::format(" ({} tightened since)", outside_tightened_);
      }
    }
    return text;
  }

  [[nodiscard]] std::string group_text(std::size_t group, bool whole,
                                       const words::Page& page) const {
    const auto& rows = rows_[group];
    if (rows.empty()) return {};
    Table table;
    table.column(kTitles[group]);
    table.column("found");
    table.column("verdict");
    table.column("limits");
    table.column("ratio", Table::Align::Right);
    table.column("grade");
    if (is_told_since(group)) table.column("since");
    const auto shown = whole ? rows.size() : shown_of(rows.size(), kMostRows);
    for (const auto& row : std::span(rows).first(shown)) {
      auto cells = row.cells;
      cells.insert(cells.begin(), record::write_address(row.joint->joint->code, row.positions));
      table.row(std::move(cells));
    }
    std::string text = '\n' + table.fitted("", page.width);
    if (shown < rows.size()) text += more(rows.size() - shown, page);
    return text;
  }

  [[nodiscard]] std::string untested_text(bool whole, const words::Page& page) const {
    if (untested_.empty()) return {};
    const auto shown = whole ? untested_.size() : shown_of(untested_.size(), kMostJoints);
    std::string text =
        '\n' + words::wrapped(fmt::format("not tested: {}",
                                          fmt::join(std::span(untested_).first(shown), ", ")),
                              page.width, "", "  ");
    if (shown < untested_.size()) text += more(untested_.size() - shown, page);
    return text;
  }

  static std::string more(std::size_t count, const words::Page& page) {
    return and_more(count, "compare --whole", page);
  }

  SinceTested since_;
  std::size_t outside_tightened_ = 0;
  std::array<std::vector<Row>, kTitles.size()> rows_;
  std::array<std::size_t, kTitles.size()> tested_ = {};
  std::vector<std::string> untested_;  // an address for each joint
  std::size_t positions_ = 0;
  std::size_t not_tested_ = 0;
};

}  // namespace

std::string compare_overview(const record::Job& job, const std::vector<const JointState*>& joints,
                             bool whole, const words::Page& page) {
  if (joints.empty()) return words::no_joints(page);
  return Overview(job, joints).text(whole, page);
}

}  // namespace screen
