#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/unreadable_line.h"

namespace SQLite {
class Statement;
}

namespace logbook {

// Which lines of a kind are read, and what is done with one that cannot be.
struct RowFilter {
  // Where lines that cannot be read are put; they are left out of what is read.
  std::vector<record::UnreadableLine>& unreadable;
  std::optional<std::string_view> name = std::nullopt;      // of one joint, wrench, fluid or code
  std::optional<std::string_view> from_id = std::nullopt;   // only those with this id or a higher
  std::optional<std::string_view> until_id = std::nullopt;  // only those with a lower one than this
  bool struck_too = false;
  const std::function<void()>* line_read = nullptr;  // called for each

  // The condition on a table called `rows` with the entry called `e`, and the column that holds the
  // name: "WHERE ..." or nothing.
  [[nodiscard]] std::string where(std::string_view name_column) const;

  // Binds what where() left open.
  void bind(SQLite::Statement& row) const;
};

}  // namespace logbook
