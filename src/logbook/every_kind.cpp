#include "logbook/every_kind.h"

#include <algorithm>
#include <iterator>

#include "failure/failure.h"
#include "record/content_check.h"

namespace logbook {
namespace {

// A kind whose lines are looked up by the code of their joint.
template <class Kind>
concept OfAJoint = record::OneOf<Kind, record::Joint> || requires(const Kind& content) {
  content.joint;
};

}  // namespace

template <class Kind>
std::vector<record::Entry<Kind>> read_consistent(SQLite::Database& database,
                                                 const RowFilter& filter) {
  auto entries = read_rows(database, filter, Rows<Kind>{});
  std::erase_if(entries, [&](const record::Entry<Kind>& entry) {
    try {
      record::check_content(entry.content);
      return false;
    } catch (const failure::InputError& error) {
      filter.unreadable.push_back({entry.stamp.line, entry.stamp.id,
                                   std::string(record::Kinds::word_of<Kind>()), error.what()});
      return true;
    }
  });
  return entries;
}

template std::vector<record::Entry<record::Joint>> read_consistent(SQLite::Database&,
                                                                   const RowFilter&);
template std::vector<record::Entry<record::Wrench>> read_consistent(SQLite::Database&,
                                                                    const RowFilter&);

void insert_content(RowWriter& writer, const std::string& id, const record::Content& content) {
  std::visit([&]<class Kind>(const Kind& kind) { insert_rows(writer, id, kind, Rows<Kind>{}); },
             content);
}

std::string kind_of(const record::Content& content) {
  return std::visit(
      []<class Kind>(const Kind&) { return std::string(record::Kinds::word_of<Kind>()); }, content);
}

std::vector<record::Entry<record::LogbookStart>> read_start(SQLite::Database& database,
                                                            const RowFilter& filter) {
  return read_consistent<record::LogbookStart>(database, filter);
}

void read_lines_of_joints(SQLite::Database& database, const RowFilter& filter, record::Job& job) {
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (OfAJoint<Kind>)
      record::entries_of<Kind>(job) = read_consistent<Kind>(database, filter);
  });
}

void read_lines_of_none(SQLite::Database& database, const RowFilter& filter, record::Job& job) {
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (record::KeptInJob<Kind> && !OfAJoint<Kind>) {
      record::entries_of<Kind>(job) = read_consistent<Kind>(database, filter);
    }
  });
}

std::size_t count_readable(SQLite::Database& database, const RowFilter& filter,
                           const std::set<std::size_t>& kinds) {
  std::size_t readable = 0;
  std::size_t place = 0;
  record::Kinds::for_each([&]<class Kind>() {
    if (!kinds.contains(place++)) return;
    if constexpr (record::OneOf<Kind, record::Strike>) {
      readable += read_rows(database, filter, Rows<Kind>{}).size();
    } else {
      readable += read_consistent<Kind>(database, filter).size();
    }
  });
  return readable;
}

std::vector<record::HistoryLine> read_every_line(SQLite::Database& database,
                                                 const RowFilter& filter) {
  std::vector<record::HistoryLine> lines;
  auto of_no_joint = filter;
  of_no_joint.name.reset();
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (!record::OneOf<Kind, record::Strike>) {
      for (auto& entry : read_consistent<Kind>(database, OfAJoint<Kind> ? filter : of_no_joint)) {
        lines.push_back({std::move(entry.stamp), std::move(entry.content), std::nullopt, {}});
      }
    }
  });
  std::ranges::sort(lines, {},
                    [](const auto& line) -> const std::string& { return line.stamp.id; });
  return lines;
}

}  // namespace logbook
