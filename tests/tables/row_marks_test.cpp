#include "tables/row_marks.h"

#include <fmt/format.h>

#include "support/catch.h"

namespace row_marks_test {

using tables::RowMarks;

TEST_CASE("a row is known by the line it was first on, whatever else is known", "[tables]") {
  constexpr std::size_t kRows = 50'000;
  RowMarks marks;
  const auto mark = [](std::size_t row) { return RowMarks::mark_of(fmt::format("row {}", row)); };
  for (std::size_t row = 0; row < kRows; ++row) {
    CHECK_FALSE(marks.line_of(mark(row)));
    CHECK_FALSE(marks.add(mark(row), row + 2));
  }
  for (std::size_t row = 0; row < kRows; ++row) {
    CHECK(marks.line_of(mark(row)) == row + 2);
    CHECK(marks.add(mark(row), 1) == row + 2);
  }
  CHECK_FALSE(marks.line_of(RowMarks::mark_of("")));
  CHECK_FALSE(marks.line_of(mark(kRows)));
}

}  // namespace row_marks_test
