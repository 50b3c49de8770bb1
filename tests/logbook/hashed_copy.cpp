#include "support/hashed_copy.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "logbook/hash_chain.h"
#include "logbook/schema.h"

namespace {

using Json = nlohmann::ordered_json;

struct Column {
  bool is_number = false;       // REAL, also where the value is whole
  std::string untouched = "n";  // as its default is written
};

std::string written(const Json& value, bool is_number) {
  if (value.is_null()) return "n";
  if (value.is_number() && (is_number || value.is_number_float())) {
    return fmt::format("r{:016x}", std::bit_cast<std::uint64_t>(value.get<double>() + 0.0));
  }
  if (value.is_number()) return fmt::format("i{}", value.get<std::int64_t>());
  if (!value.is_string()) return value.dump();  // no column takes it
  const auto text = value.get<std::string>();
  return fmt::format("t{}:{}", text.size(), text);
}

// The columns of the tables of this schema.
class Columns {
 public:
  explicit Columns(int schema)
      : database_(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE) {
    logbook::make_tables(database_, schema);
  }

  const Column& of(const std::string& table, const std::string& name) {
    const auto [found, is_new] = known_.try_emplace({table, name});
    if (!is_new) return found->second;
    SQLite::Statement row(database_,
                          "SELECT type, dflt_value FROM pragma_table_info(?) WHERE name = ?");
    row.bind(1, table);
    row.bind(2, name);
    if (!row.executeStep()) return found->second;
    auto& column = found->second;
    const auto type = row.getColumn(0).getString();
    column.is_number = type == "REAL";
    if (!row.getColumn(1).isNull()) {
      const auto value = database_.execAndGet(
          fmt::format("SELECT CAST({} AS {})", row.getColumn(1).getString(), type));
      column.untouched = value.isInteger() ? fmt::format("i{}", value.getInt64())
                         : value.isFloat() ? written(value.getDouble(), true)
                                           : written(value.getString(), false);
    }
    return column;
  }

 private:
  SQLite::Database database_;
  std::map<std::pair<std::string, std::string>, Column> known_;
};

std::string canonical_text(const Json& line, Columns& columns) {
  std::string text = "entry\n";
  const std::map<std::string, std::string> entry = {
      {"by_whom", "by"}, {"device", "device"}, {"done_at", "done_at"}, {"entered_at", "entered_at"},
      {"id", "id"},      {"kind", "kind"}};
  for (const auto& [column, member] : entry) {
    text += fmt::format("{} {}\n", column, written(line.at(member), false));
  }
  std::map<std::string, std::vector<std::string>> tables;
  for (const auto& [table, rows] : line.at("rows").items()) {
    for (const auto& row : rows) {
      std::map<std::string, Json> cells;
      for (const auto& [name, value] : row.items()) cells[name] = value;
      auto& says = tables[table].emplace_back(table + "\n");
      for (const auto& [name, value] : cells) {
        const auto& column = columns.of(table, name);
        const auto cell = written(value, column.is_number);
        if (cell != column.untouched) says += fmt::format("{} {}\n", name, cell);
      }
    }
  }
  for (auto& [table, rows] : tables) {
    std::ranges::sort(rows);
    for (const auto& row : rows) text += row;
  }
  return text;
}

}  // namespace

void hash_anew(nlohmann::ordered_json& copy) {
  Columns columns(copy.at("schema").get<int>());
  std::map<std::string, std::string> last_of;  // device
  std::string last;
  for (auto& line : copy.at("lines")) {
    auto& chain = line.at("chain");
    const auto device = line.at("device").get<std::string>();
    const logbook::Link link{last_of[device], last, chain.at("later").get<std::string>()};
    last = logbook::hash_of(link, canonical_text(line, columns));
    last_of[device] = last;
    chain["device_before"] = link.device_before;
    chain["file_before"] = link.file_before;
    chain["hash"] = last;
  }
}
