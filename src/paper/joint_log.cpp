#include "paper/joint_log.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

#include "paper/from_to.h"
#include "record/address.h"
#include "words/line_text.h"

namespace paper {
namespace {

using record::HistoryLine;

// What was done to positions of a joint; a specification is only said of them, and a photograph
// only shows them.
template <class Content>
concept Work = requires(Content content) {
  content.joint;
  content.positions;
}
&&!record::OneOf<Content, record::Specified, record::Photograph>;

// Lines that stand in one row.
struct Joined {
  record::Content content;  // with the positions of all of them
  const HistoryLine* first = nullptr;
  const HistoryLine* last = nullptr;
};

template <Work Content>
bool says_the_same(Content a, Content b) {
  a.positions = b.positions = {1};
  if constexpr (requires { a.in_order; }) a.in_order = b.in_order = false;
  return words::line_text(a) == words::line_text(b);
}

bool share_a_position(const std::vector<int>& a, const std::vector<int>& b) {
  return std::ranges::any_of(
      a, [&](int position) { return std::ranges::find(b, position) != b.end(); });
}

// Takes the line into the row where it says the same of other positions.
bool join(Joined& row, const HistoryLine& line) {
  if (row.first->struck_by || line.struck_by || row.first->stamp.by != line.stamp.by) return false;
  return std::visit(
      [&]<class Content>(Content& content) {
        if constexpr (Work<Content>) {
          const auto* next = std::get_if<Content>(&line.content);
          if (next == nullptr || share_a_position(content.positions, next->positions) ||
              !says_the_same(content, *next)) {
            return false;
          }
          content.positions.insert(content.positions.end(), next->positions.begin(),
                                   next->positions.end());
          std::ranges::sort(content.positions);
          if constexpr (requires { content.in_order; }) content.in_order = false;
          row.last = &line;
          return true;
        } else {
          return false;
        }
      },
      row.content);
}

LogRow log_row_of(const Joined& row) {
  auto joined = log_row(*row.first);
  if (row.first == row.last) return joined;
  joined.line = fmt::format("{} to {}", row.first->stamp.line, row.last->stamp.line);
  joined.done = from_to(row.first->stamp.done_at, row.last->stamp.done_at);
  joined.says = words::line_text(row.content);
  return joined;
}

}  // namespace

JointLog::JointLog(const std::vector<HistoryLine>& lines) {
  for (const auto& line : lines) {
    std::visit(
        [&]<class Content>(const Content& content) {
          if constexpr (Work<Content>) lines_[record::folded_code(content.joint)].push_back(&line);
        },
        line.content);
  }
}

std::vector<LogRow> JointLog::rows_of(std::string_view joint) const {
  const auto found = lines_.find(record::folded_code(joint));
  if (found == lines_.end()) return {};
  std::vector<Joined> joined;
  for (const auto* line : found->second) {
    if (joined.empty() || !join(joined.back(), *line))
      joined.push_back({line->content, line, line});
  }
  std::vector<LogRow> rows;
  rows.reserve(joined.size());
  for (const auto& row : joined) rows.push_back(log_row_of(row));
  return rows;
}

}  // namespace paper
