#include "screen/import_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"

namespace screen {
namespace {

bool has_line_numbers(const Imported& imported) { return imported.written && imported.lines > 0; }

std::string lines_text(const Imported& imported) {
  if (!imported.written) return words::counted(imported.lines, "line") + "; nothing was written";
  if (imported.lines == 0) return "nothing to enter";
  const auto last = imported.first_line + static_cast<std::int64_t>(imported.lines) - 1;
  if (last == imported.first_line) return fmt::format("line {}", last);
  return fmt::format("{}, {} to {}", words::counted(imported.lines, "line"), imported.first_line,
                     last);
}

}  // namespace

std::string imported_text(const Imported& imported, const words::Page& page) {
  const auto what =
      imported.what == kWholeLogbook
          ? "the whole logbook"
          : fmt::format("{} of {}", words::counted(imported.rows, "row"), imported.what);
  return words::wrapped(fmt::format("{}: {}", what, lines_text(imported)), page.width, "", "  ");
}

std::string imported_json(const Imported& imported) {
  nlohmann::ordered_json document{{"what", imported.what},
                                  {"rows", imported.rows},
                                  {"lines", imported.lines},
                                  {"first_line", nullptr},
                                  {"written", imported.written}};
  if (has_line_numbers(imported)) document["first_line"] = imported.first_line;
  return json_text(kImportFormat, std::move(document));
}

}  // namespace screen
