#include "screen/compare_overview.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <span>

#include "record/address.h"
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
  explicit Overview(const std::vector<const JointState*>& joints) {
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

  // What is outside or undecided has a line of its own.
  void add(const JointState& joint, const PositionState& position, const Finding& finding) {
    const auto group = group_of(finding.verdict);
    auto& rows = rows_[static_cast<std::size_t>(group)];
    ++tested_[static_cast<std::size_t>(group)];
    auto cells = cells_of(joint, position, finding);
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
    const auto shown = whole ? rows.size() : std::min(rows.size(), kMostRows);
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
    const auto shown = whole ? untested_.size() : std::min(untested_.size(), kMostJoints);
    std::string text =
        '\n' + words::wrapped(fmt::format("not tested: {}",
                                          fmt::join(std::span(untested_).first(shown), ", ")),
                              page.width, "", "  ");
    if (shown < untested_.size()) text += more(untested_.size() - shown, page);
    return text;
  }

  static std::string more(std::size_t count, const words::Page& page) {
    return words::wrapped(fmt::format("and {} more: boltwitness compare --whole", count),
                          page.width, "", "  ");
  }

  std::array<std::vector<Row>, kTitles.size()> rows_;
  std::array<std::size_t, kTitles.size()> tested_ = {};
  std::vector<std::string> untested_;  // an address for each joint
  std::size_t positions_ = 0;
  std::size_t not_tested_ = 0;
};

}  // namespace

std::string compare_overview(const std::vector<const JointState*>& joints, bool whole,
                             const words::Page& page) {
  if (joints.empty()) return words::no_joints(page);
  return Overview(joints).text(whole, page);
}

}  // namespace screen
