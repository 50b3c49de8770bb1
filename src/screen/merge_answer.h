#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "audit/audit.h"
#include "record/moment.h"
#include "record/unreadable_line.h"
#include "words/text.h"
#include "words/written_line.h"

namespace screen {

// What a merge brought, or would bring.
struct MergeMade {
  std::string file;                                     // the copy, as it was named
  bool written = false;                                 // not only looked at
  std::vector<words::WrittenLine> lines;                // taken over, rising
  std::vector<record::UnreadableLine> unreadable = {};  // taken over too: each of them is struck
  std::optional<std::string> no_copy_holds = {};        // what of them keeps it from an export
  std::int64_t lines_of_copy = 0;
  bool is_ahead = false;  // the logbook holds lines that the copy does not
  std::size_t signatures = 0;
  std::int64_t moved = 0;           // so many lines of the logbook have other numbers now
  std::int64_t first_moved = 0;     // the number that the first of them had
  std::int64_t first_moved_to = 0;  // and the one that it has
  std::string kept;                 // the file with the logbook as it was; may be empty
  const audit::Audit* audit = nullptr;
  std::vector<const audit::Deviation*> opened;  // of the audit, since the merge

  [[nodiscard]] std::size_t taken_over() const { return lines.size() + unreadable.size(); }
};

// In its first line how many lines came; then the lines, cut; what of them cannot be read; whose
// numbers moved; where the logbook as it was is kept; and the deviations that came with them.
[[nodiscard]] std::string merge_text(const MergeMade& made, const words::Page& page);

// {"copy","written":bool,"lines":[{"line","id","by","says"}],
// "unreadable":[{"line","id","kind","why","struck"}],"no_copy_holds":text|null,"lines_of_copy",
// "ahead":bool,"signatures","moved":{"lines","from","to"}|null,"kept":file|null,"deviations":[as
// audit_json has them],"ready":bool,"in_order":bool}
[[nodiscard]] std::string merge_json(const MergeMade& made);

}  // namespace screen
