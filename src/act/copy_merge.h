#pragma once

#include <memory>
#include <string>
#include <vector>

#include "audit/audit.h"
#include "finding/survey.h"
#include "logbook/merging.h"
#include "words/written_line.h"

namespace act {

// A whole job with its audit. All of it points into each other, so it stays where it is.
struct Audited {
  Audited(record::Job whole, record::Moment now);
  Audited(const Audited&) = delete;
  Audited& operator=(const Audited&) = delete;

  record::Job job;
  finding::Survey survey;
  audit::Audit audit;
};

// What a merge brought, or would bring.
struct CopyMerged {
  logbook::Merged merged;
  std::vector<words::WrittenLine> lines;  // those taken over that can be read, rising
  std::unique_ptr<Audited> after;
  // Of `after`, what is open now and was not before: first what the two contradict each other in.
  std::vector<const audit::Deviation*> opened;
  // The number that the first line of the logbook which moved has now; 0 where none did.
  std::int64_t first_moved_to = 0;
  std::string kept;  // the file with the logbook as it was; empty where nothing came, or was tried
};

// Puts a copy of the logbook into it (logbook/merging.h). To look only what would come of that, the
// logbook is one that was opened to try something.
[[nodiscard]] CopyMerged merge_copy(logbook::Logbook& logbook, const std::string& copy,
                                    record::Moment now, const logbook::MergeProgress& progress,
                                    logbook::Waiting& waiting);

}  // namespace act
