#include "logbook/every_kind.h"

#include <algorithm>
#include <iterator>

namespace logbook {
namespace {

// A kind whose lines are looked up by the code of their joint.
template <class Kind>
concept OfAJoint = record::OneOf<Kind, record::Joint> || requires(const Kind& content) {
  content.joint;
};

}  // namespace

void insert_content(SQLite::Database& database, const std::string& id,
                    const record::Content& content) {
  std::visit([&]<class Kind>(const Kind& kind) { insert_rows(database, id, kind, Rows<Kind>{}); },
             content);
}

std::string kind_of(const record::Content& content) {
  return std::visit(
      []<class Kind>(const Kind&) { return std::string(record::Kinds::word_of<Kind>()); }, content);
}

void read_lines_of_joints(SQLite::Database& database, const RowFilter& filter, record::Job& job) {
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (OfAJoint<Kind>)
      record::entries_of<Kind>(job) = read_rows(database, filter, Rows<Kind>{});
  });
}

void read_lines_of_none(SQLite::Database& database, const RowFilter& filter, record::Job& job) {
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (record::KeptInJob<Kind> && !OfAJoint<Kind>) {
      record::entries_of<Kind>(job) = read_rows(database, filter, Rows<Kind>{});
    }
  });
}

std::vector<record::HistoryLine> read_every_line(SQLite::Database& database,
                                                 const RowFilter& filter) {
  std::vector<record::HistoryLine> lines;
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (!record::OneOf<Kind, record::Strike>) {
      for (auto& entry : read_rows(database, filter, Rows<Kind>{})) {
        lines.push_back({std::move(entry.stamp), std::move(entry.content), std::nullopt, {}});
      }
    }
  });
  std::ranges::sort(lines, {},
                    [](const auto& line) -> const std::string& { return line.stamp.id; });
  return lines;
}

}  // namespace logbook
