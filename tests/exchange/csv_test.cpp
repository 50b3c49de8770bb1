#include "exchange/csv.h"

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/whole_csv.h"

namespace csv_test {

using Catch::Matchers::StartsWith;
using exchange::read_csv;
using exchange::write_csv_row;
using Rows = std::vector<std::vector<std::string>>;

namespace {

Rows rows_in(const std::string& text) {
  const auto read = read_csv(text);
  CHECK(read.faults.empty());
  Rows rows;
  for (const auto& row : read.rows) {
    auto& cells = rows.emplace_back();
    for (const auto& cell : row) cells.push_back(cell.text);
  }
  return rows;
}

// "line:column why" of the only fault.
std::string fault_in(const std::string& text) {
  const auto read = read_csv(text);
  REQUIRE(read.faults.size() == 1);
  const auto& fault = read.faults.front();
  return std::to_string(fault.line) + ":" + std::to_string(fault.column) + " " + fault.why;
}

}  // namespace

// RFC 4180 section 2, rules 1 to 7 with their examples, from memory.
TEST_CASE("rows and cells are read as RFC 4180 has them", "[exchange]") {
  const Rows two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  CHECK(rows_in("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two);
  CHECK(rows_in("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two);
  CHECK(rows_in("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two);
  CHECK(rows_in("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_in("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});
  CHECK(rows_in(" a , b\r\n") == Rows{{" a ", " b"}});
}

TEST_CASE("what programs write beside RFC 4180 is read too", "[exchange]") {
  CHECK(rows_in("\xEF\xBB\xBF"
                "a,b\n1,2\n") == Rows{{"a", "b"}, {"1", "2"}});
  CHECK(rows_in("a;b\n1,5;2\n") == Rows{{"a", "b"}, {"1,5", "2"}});
  CHECK(rows_in("\"a;b\",c\n1;5,2\n") == Rows{{"a;b", "c"}, {"1;5", "2"}});
  CHECK(rows_in("a,b\n\n1,2\n\r\n") == Rows{{"a", "b"}, {"1", "2"}});
  CHECK(rows_in("a,\n,\n\"\",b") == Rows{{"a", ""}, {"", ""}, {"", "b"}});
  CHECK(rows_in("").empty());
}

TEST_CASE("a row knows its line behind line ends in quotes", "[exchange]") {
  const auto read = read_csv("a,\"b\n\nc\",d\r\n\r\ne,f,g\r\n");
  REQUIRE(read.rows.size() == 2);
  CHECK(read.rows[0][0].line == 1);
  CHECK(read.rows[0][1].line == 1);
  CHECK(read.rows[0][2].line == 3);
  CHECK(read.rows[1][0].line == 5);
}

TEST_CASE("what breaks the rules is told with its line and column", "[exchange]") {
  CHECK_THAT(fault_in("a,b\n1,2\"3\n"), StartsWith("2:2 a quote inside a cell"));
  CHECK_THAT(fault_in("a,b\n\"1\"2,3\n"), StartsWith("2:1 text behind the closing quote"));
  CHECK_THAT(fault_in("a,b\n1,\"2\n3,4\n"),
             StartsWith("2:2 the quote that opens on line 2 is never closed"));
  CHECK_THAT(fault_in("a,b\r1,2\n"), StartsWith("1:2 a line end of CR alone"));
  CHECK_THAT(fault_in("a,b\n1,\xE4\n"), StartsWith("2:2 holds bytes that are not UTF-8"));
  CHECK_THAT(fault_in(std::string("a,b\n1,x\0y\n", 10)), StartsWith("2:2 holds a control"));
  CHECK_THAT(fault_in("a,b\n1,x\ty\n"), StartsWith("2:2 holds a control"));
}

// Each would be held whole: no memory is large enough.
TEST_CASE("a row without an end is refused with its line", "[exchange]") {
  const auto refused = [](const std::string& endless) {
    bool has_begun = false;
    exchange::CsvReader reader([&]() -> std::string_view {
      if (has_begun) return endless;
      has_begun = true;
      return "a,b\n1,2\n";
    });
    try {
      while (reader.next() != nullptr) continue;
    } catch (const failure::InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  CHECK_THAT(refused(std::string(1000, 'x')),
             StartsWith("line 3: the row that begins here") && ContainsSubstring("4 MiB"));
  CHECK_THAT(refused("\"" + std::string(1001, 'x')), ContainsSubstring("4 MiB"));
  CHECK_THAT(refused(std::string(1000, ',')), ContainsSubstring("1000 cells"));
  CHECK_THAT(refused("x,\r"), ContainsSubstring("1000 cells"));
}

TEST_CASE("a fault is told at the line where its row starts", "[exchange]") {
  CHECK_THAT(fault_in("a,b\n\"1\n2\",3\"4\n"), StartsWith("2:2 a quote inside a cell"));
  CHECK_THAT(fault_in("a,b\n\"1\n2\",3\n5,6\"7\n"), StartsWith("4:2 a quote inside a cell"));
}

TEST_CASE("reading goes on behind a fault", "[exchange]") {
  const auto read = read_csv("a,b\n1,2\"\n\"3\"x,4\n5,6\n");
  CHECK(read.faults.size() == 2);
  REQUIRE(read.rows.size() == 4);
  CHECK(read.rows[3][1].text == "6");
}

TEST_CASE("cells that were written are read back", "[exchange]") {
  CHECK(exchange::write_csv_row({"a", "", "b,c", "d\"e", "f\ng", "h;i"}) ==
        "a,,\"b,c\",\"d\"\"e\",\"f\ng\",\"h;i\"\r\n");
  holds_always("read_csv gives the cells of write_csv_row back", [] {
    const auto cell =
        rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab ,;\"\n'=+-@0")));
    const auto header = std::vector<std::string>{"x", "y", "z"};
    const auto cells = *rc::gen::container<std::vector<std::string>>(3, cell);
    const auto rows = rows_in(exchange::write_csv_row(header) + exchange::write_csv_row(cells));
    RC_ASSERT(rows == (Rows{header, cells}));
  });
}

TEST_CASE("a text that comes in pieces is read as the whole is", "[exchange]") {
  holds_always("wherever it is cut", [] {
    const auto text = *rc::gen::container<std::string>(
        rc::gen::elementOf(std::string("ab,;\"\n\r'\t\xC3\xA4\xEF\xBB\xBF")));
    const auto bytes = *rc::gen::inRange<std::size_t>(1, 5);
    const auto whole = read_csv(text);
    const auto pieces = exchange::read_csv(text, bytes);
    RC_ASSERT(pieces.rows.size() == whole.rows.size());
    for (std::size_t i = 0; i < whole.rows.size(); ++i) {
      RC_ASSERT(pieces.rows[i].size() == whole.rows[i].size());
      for (std::size_t k = 0; k < whole.rows[i].size(); ++k) {
        RC_ASSERT(pieces.rows[i][k].text == whole.rows[i][k].text);
        RC_ASSERT(pieces.rows[i][k].line == whole.rows[i][k].line);
      }
    }
    RC_ASSERT(pieces.faults.size() == whole.faults.size());
    for (std::size_t i = 0; i < whole.faults.size(); ++i) {
      RC_ASSERT(pieces.faults[i].line == whole.faults[i].line);
      RC_ASSERT(pieces.faults[i].column == whole.faults[i].column);
      RC_ASSERT(pieces.faults[i].why == whole.faults[i].why);
    }
  });
}

// What a spreadsheet computes: the beginnings that the Open Worldwide Application Security Project
// lists under CSV injection, from memory.
TEST_CASE("no cell that is written begins as a formula does", "[exchange]") {
  CHECK(write_csv_row({"=1+1", "+90°", "-2+3", "@x", "\uFF1Dx"}) ==
        "'=1+1,'+90°,'-2+3,'@x,'\uFF1Dx\r\n");
  CHECK(write_csv_row({"=a,b"}) == "\"'=a,b\"\r\n");
  CHECK(write_csv_row({"'=x", "''=x", "it's", "'quoted'"}) == "''=x,'''=x,it's,'quoted'\r\n");
  CHECK(write_csv_row({"-90", "+3,5", "-0.5"}) == "-90,\"+3,5\",-0.5\r\n");
}

TEST_CASE("a guarded cell is read as what it guards, another as it stands", "[exchange]") {
  CHECK(rows_in("'=1+1,''=x,'quoted',it's,'-90,'-90°\r\n") ==
        Rows{{"=1+1", "'=x", "'quoted'", "it's", "'-90", "-90°"}});
}

TEST_CASE("cells that may be formulas come back, and none begins as one", "[exchange]") {
  holds_always("the guard is taken away again, and only the guard", [] {
    const auto some_cell =
        rc::gen::container<std::string>(rc::gen::elementOf(std::string("=+-@'09,.;\" ax")));
    auto cells = *rc::gen::container<std::vector<std::string>>(some_cell);
    cells.emplace_back("last");
    const auto read = read_csv("a,b\r\n" + write_csv_row(cells));
    RC_ASSERT(read.faults.empty());
    RC_ASSERT(read.rows.back().size() == cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      RC_ASSERT(read.rows.back()[i].text == cells[i]);
      const auto alone = write_csv_row({cells[i]});
      const auto first = alone[alone.starts_with('"') ? 1 : 0];
      const bool is_number = cells[i].size() > 1 && cells[i][1] >= '0' && cells[i][1] <= '9' &&
                             cells[i].find_first_not_of("0123456789.,", 1) == std::string::npos;
      RC_ASSERT(is_number || std::string("=+-@").find(first) == std::string::npos);
    }
  });
}

TEST_CASE("semicolons part the cells where the decimal mark is a comma", "[exchange]") {
  const auto row = write_csv_row({"a;b", "1,5", "c,d", "x"}, exchange::Decimals::Comma);
  CHECK(row == "\"a;b\";1,5;c,d;x\r\n");
  const auto read = read_csv("p;q;r;s\r\n" + row);
  CHECK(read.decimals == exchange::Decimals::Comma);
  CHECK(read.rows.back()[1].text == "1,5");
  CHECK(read_csv("p,q\r\n1,2\r\n").decimals == exchange::Decimals::Point);
}

TEST_CASE("only a mark between two digits is that of a decimal", "[exchange]") {
  CHECK(exchange::with_decimal_comma("20.5..200.5 N.m, 3. x.5") == "20,5..200,5 N.m, 3. x.5");
  CHECK(exchange::with_decimal_point("20,5..200,5 N·m, 80 N·m,") == "20.5..200.5 N·m, 80 N·m,");
  holds_always("a cell without a comma between digits comes back", [] {
    const auto cell =
        *rc::gen::container<std::string>(rc::gen::elementOf(std::string("0123456789. ,abN±°")));
    RC_PRE(exchange::with_decimal_point(cell) == cell);
    RC_ASSERT(exchange::with_decimal_point(exchange::with_decimal_comma(cell)) == cell);
  });
}

}  // namespace csv_test
