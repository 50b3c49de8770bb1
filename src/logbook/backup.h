#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "logbook/lines_progress.h"
#include "logbook/waiting.h"
#include "record/moment.h"
#include "record/verification.h"

namespace logbook {

// A copy of a logbook that was made and looked at.
struct Backup {
  std::filesystem::path file;
  record::Verification verified;               // of the copy, read from the disk
  std::vector<std::filesystem::path> removed;  // older copies beyond those that are kept
  // Older copies that would have been, but hold lines that this logbook does not.
  std::vector<std::filesystem::path> different;
};

// Copies the logbook as it stands, whoever writes to it meanwhile, into this folder under its name
// with date and time ("gb1-2026-03-02-0815.bolts"), and verifies what was written before it gets
// that name, with a number behind it from the second of one minute on. Nothing is ever replaced.
// With `keep`, older copies of this logbook there are removed but for so many of the newest, by
// lines and then by name, this one counted; only such as have a name of this form, the same first
// line, and no line that this logbook has not. This one stays even where so many newer ones came
// meanwhile, or the clock was put back.
// `copying` is told of the pages that are copied, `verifying` of the lines of the copy.
// Refusal where the copy does not fit, as verify tells; LogbookError where the logbook cannot be
// read or the folder not be written. Nothing is left behind then.
[[nodiscard]] Backup back_up(const std::string& path, const std::filesystem::path& folder,
                             record::Moment now, std::optional<std::size_t> keep,
                             Waiting& waiting = Waiting::silent(),
                             const LinesProgress& copying = {},
                             const LinesProgress& verifying = {});

// Whether `file` has the name that back_up gives to a copy of the logbook at `path`.
[[nodiscard]] bool is_named_as_copy(const std::filesystem::path& file,
                                    const std::filesystem::path& path);

// The newest copy of this name in a folder, told by the time in its own; nothing where there is
// none.
[[nodiscard]] std::optional<std::filesystem::path> newest_copy_of(
    const std::string& path, const std::filesystem::path& folder);

}  // namespace logbook
