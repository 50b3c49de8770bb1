// 200 files that somebody's spreadsheet, editor or disk has damaged, made by a seeded generator:
// none is taken in silence, and the logbook stays as it was.

#include <algorithm>
#include <functional>
#include <random>

#include "exchange/csv.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/trial.h"

namespace malformed_import_test {

namespace {

using Random = std::mt19937;
using Table = std::vector<std::vector<std::string>>;

std::size_t below(Random& random, std::size_t count) {
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
}

// Good rows of one table, the header first.
Table good_table(const std::string& name) {
  if (name == "joints") {
    return {{"joint", "holds", "size", "grade", "count", "spec", "after"},
            {"J10", "cover, left", "M8", "8.8", "4", "25 N·m", ""},
            {"J11", "pump \"A\"", "M12x1.75", "10.9", "6", "60 N·m, +60°", "J10"},
            {"J12", "pipe", "3/8-16", "SAE 5", "4", "30 ft-lb", "J10; J11"}};
  }
  if (name == "wrenches") {
    return {{"name", "range", "graduation", "accuracy", "calibrated", "valid"},
            {"TW5", "2..20 N·m", "0.2 N·m", "3%", "2026-02-10", "12 mo"},
            {"TW6", "10..75 ft·lbf", "0.5 ft·lbf", "4%", "2026-03-02", "1 y"}};
  }
  if (name == "findings") {
    return {{"address", "readings", "wrench", "unit", "prevailing", "by", "at"},
            {"J06/1", "60s 70s 80o", "TW2", "N·m", "", "KB", "2026-05-02T08:00Z"},
            {"J06/2", "60s 6° 80p", "TW2", "N·m", "2 N·m", "LM", "2026-05-02T08:05Z"},
            {"J06/3", "60n, 75s, 80o", "TW2", "", "", "", ""}};
  }
  return {{"address", "pass", "asked", "wrench", "set", "unit", "at"},
          {"J06/1-8", "1", "torque 40 N·m", "TW2", "40", "N·m", "2026-05-02T08:00Z"},
          {"J06/9-16", "1", "torque 40 N·m", "TW2", "40", "N·m", "2026-05-02T08:05Z"}};
}

std::string text_of(const Table& table) {
  std::string text;
  for (const auto& row : table) text += exchange::write_csv_row(row);
  return text;
}

struct Damage {
  const char* what;
  // The damaged text.
  std::function<std::string(Table, Random&)> done;
};

// Another text in one cell of a column; where the table has no such column, it has one then, which
// belongs to another table.
std::string with_cell(Table table, Random& random, const std::string& column,
                      const std::string& text) {
  const auto& header = table.front();
  const auto at = static_cast<std::size_t>(std::ranges::find(header, column) - header.begin());
  if (at == header.size()) {
    for (auto& row : table) row.push_back(text);
    table.front().back() = column;
  }
  table[1 + below(random, table.size() - 1)][at] = text;
  return text_of(table);
}

// One row as raw text instead of what stands there.
std::string with_row(Table table, Random& random,
                     const std::function<std::string(std::string)>& change) {
  const auto row = 1 + below(random, table.size() - 1);
  std::string text;
  for (std::size_t i = 0; i < table.size(); ++i) {
    auto line = exchange::write_csv_row(table[i]);
    text += i == row ? change(std::move(line)) : line;
  }
  return text;
}

const std::vector<Damage>& damages() {
  static const std::vector<Damage> all = {
      {"a quote never closed",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "\"" + line; });
       }},
      {"a quote inside a cell",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "5\"" + line; });
       }},
      {"text behind a quote",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "\"x\"y" + line; });
       }},
      {"Latin-1 bytes",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "\xE4" + line; });
       }},
      {"a broken UTF-8 sequence",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "\xC3" + line; });
       }},
      {"NUL",
       [](Table t, Random& r) {
         return with_row(std::move(t), r,
                         [](std::string line) { return std::string(1, '\0') + line; });
       }},
      {"a control character",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) { return "\x07" + line; });
       }},
      {"line ends of CR alone",
       [](Table t, Random&) {
         auto text = text_of(t);
         std::erase(text, '\n');
         return text;
       }},
      {"a column gone",
       [](Table t, Random&) {
         for (auto& row : t) row.erase(row.begin());
         return text_of(t);
       }},
      {"a column unknown",
       [](Table t, Random& r) {
         t.front()[below(r, t.front().size())] += "x";
         return text_of(t);
       }},
      {"a column twice",
       [](Table t, Random& r) {
         t.front()[1 + below(r, t.front().size() - 1)] = t.front().front();
         return text_of(t);
       }},
      {"a cell too many",
       [](Table t, Random& r) {
         t[1 + below(r, t.size() - 1)].push_back("");
         return text_of(t);
       }},
      {"a cell too few",
       [](Table t, Random& r) {
         t[1 + below(r, t.size() - 1)].pop_back();
         return text_of(t);
       }},
      {"no header",
       [](Table t, Random&) {
         t.erase(t.begin());
         return text_of(t);
       }},
      {"a row of empty cells",
       [](Table t, Random& r) {
         for (auto& cell : t[1 + below(r, t.size() - 1)]) cell.clear();
         return text_of(t);
       }},
      {"the first cell empty",
       [](Table t, Random& r) {
         t[1 + below(r, t.size() - 1)].front().clear();
         return text_of(t);
       }},
      {"a huge cell",
       [](Table t, Random& r) {
         t[1 + below(r, t.size() - 1)].front() = std::string(100'000, 'x');
         return text_of(t);
       }},
      {"semicolons in the rows alone",
       [](Table t, Random& r) {
         return with_row(std::move(t), r, [](std::string line) {
           line[line.find(',')] = ';';
           return line;
         });
       }},
      {"broken off in the middle",
       [](Table t, Random& r) {
         const auto text = text_of(t);
         const auto last = text.rfind('\n', text.size() - 2) + 1;
         return text.substr(0, last + 1 + below(r, text.find(',', last) - last));
       }},
      {"an unknown joint",
       [](Table t, Random& r) { return with_cell(std::move(t), r, "address", "J99/1"); }},
      {"a position out of range",
       [](Table t, Random& r) { return with_cell(std::move(t), r, "address", "J06/17"); }},
      {"position zero",
       [](Table t, Random& r) { return with_cell(std::move(t), r, "address", "J06/0"); }},
      {"an unknown wrench",
       [](Table t, Random& r) {
         return with_cell(std::move(t), r, "wrench",
                          "TW99 or so, perhaps; nobody wrote down which");
       }},
      {"no unit",
       [](Table t, Random& r) {
         const std::string column = t.front().front() == "name" ? "range" : "spec";
         return with_cell(std::move(t), r, column, "2..20");
       }},
      {"an unknown unit",
       [](Table t, Random& r) {
         const std::string column = t.front().front() == "joint"  ? "spec"
                                    : t.front().front() == "name" ? "range"
                                                                  : "unit";
         return with_cell(std::move(t), r, column, "2..20 pond");
       }},
      {"a number that may be a thousand",
       [](Table t, Random& r) {
         const std::string column = t.front().front() == "joint"  ? "count"
                                    : t.front().front() == "name" ? "graduation"
                                    : t.front()[1] == "pass"      ? "set"
                                                                  : "readings";
         return with_cell(std::move(t), r, column, "1,234");
       }},
      {"a number that is none",
       [](Table t, Random& r) {
         const std::string column = t.front().front() == "joint"  ? "count"
                                    : t.front().front() == "name" ? "graduation"
                                    : t.front()[1] == "pass"      ? "pass"
                                                                  : "readings";
         return with_cell(std::move(t), r, column, "#REF!");
       }},
      {"a day that the calendar does not have",
       [](Table t, Random& r) {
         const std::string column = t.front().front() == "name" ? "calibrated" : "at";
         return with_cell(std::move(t), r, column, "2026-02-30");
       }},
      {"something there already",
       [](Table t, Random& r) {
         return with_cell(std::move(t), r, t.front().front() == "joint" ? "joint" : "?",
                          t.front().front() == "joint" ? "J06" : "J06/1-16,");
       }},
      {"a code with a blank",
       [](Table t, Random& r) {
         t[1 + below(r, t.size() - 1)].front() = "J 06/1 x";
         t.front().front() += t.front().front() == "name" ? "s" : "";
         return text_of(t);
       }},
  };
  return all;
}

}  // namespace

TEST_CASE("200 damaged tables are refused and change nothing", "[cli][import]") {
  REQUIRE(damages().size() >= 20);
  Trial trial;
  const auto path = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.done("start " + path + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J06 --holds cap --size M12x1.75 --grade 8.8 --count 16 --spec '40 N·m, 80 N·m'");
  const auto before = content_of(path);
  const std::vector<std::string> tables = {"joints", "wrenches", "findings", "tightenings"};
  for (const auto& table : tables) {
    trial.typed = text_of(good_table(table));
    CHECK(trial.run("import - --check").code == 0);
  }
  Random random(20260601);
  for (std::size_t i = 0; i < 200; ++i) {
    const auto& damage = damages()[i % damages().size()];
    const auto& table = tables[i / damages().size() % tables.size()];
    const auto text = damage.done(good_table(table), random);
    INFO(damage.what << " in " << table << ":\n" << text.substr(0, 600));
    trial.typed = text;
    const auto answer = trial.run("import - --as " + table);
    INFO(answer.err);
    CHECK(answer.code == 2);
    CHECK(answer.out.empty());
    CHECK_THAT(answer.said(), ContainsSubstring("line ") &&
                                  (ContainsSubstring("column ") || ContainsSubstring("byte ")));
    const bool is_unchanged = content_of(path) == before;
    REQUIRE(is_unchanged);
  }
}

}  // namespace malformed_import_test
