#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace SQLite {
class Statement;
}

namespace logbook {

// Which entries of a kind are read: those of one joint (or wrench) or all; without the struck ones,
// unless they are asked for.
struct RowFilter {
  std::optional<std::string_view> name = std::nullopt;
  bool struck_too = false;

  // The table or view that stands for `e` in a SELECT.
  [[nodiscard]] const char* entries() const { return struck_too ? "entry" : "current_entry"; }

  // "WHERE column = :name", or nothing.
  [[nodiscard]] std::string where(std::string_view column) const;

  // Binds :name where there is one.
  void bind(SQLite::Statement& row) const;
};

}  // namespace logbook
