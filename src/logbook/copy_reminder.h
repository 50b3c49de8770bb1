#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "record/moment.h"

namespace logbook {

class Logbook;

// What of a logbook is in no copy that this person made, as far as can be told.
struct Uncopied {
  std::optional<record::Moment> copied_at;  // the newest copy; nothing where none is known
  std::int64_t lines = 0;                   // that it lacks
  std::optional<record::Moment> since;      // when the first of them was entered

  // More than the work of a day would be lost with the disk: some of it is of an earlier day than
  // `today`.
  [[nodiscard]] bool is_due(record::Day today) const;
};

// Notes in this folder of the person's own, which is made where it is missing, that this copy was
// made: it may lie on a stick that is not plugged in when somebody asks. Where nothing can be kept
// there, nothing is.
void remember_copy(const std::filesystem::path& folder, const std::string& copy,
                   record::Moment made_at);

// By what was noted in this folder, where one is named, and by the copies beside the logbook and in
// the folder "copies" there, whichever is newer. LogbookError where the logbook cannot be read.
[[nodiscard]] Uncopied uncopied(const Logbook& logbook,
                                const std::optional<std::filesystem::path>& folder);

}  // namespace logbook
