// Files that may come from anybody: a table, a copy, a logbook.

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "exchange/csv.h"
#include "exchange/logbook_json.h"
#include "failure/failure.h"
#include "fuzz/target.h"
#include "logbook/logbook.h"
#include "logbook/verification.h"
#include "record/picture.h"
#include "support/whole_copy.h"
#include "support/whole_csv.h"

namespace fuzz {
namespace {

std::string text_of(const std::vector<exchange::CsvRow>& rows) {
  std::string text;
  for (const auto& row : rows) {
    std::vector<std::string> cells;
    for (const auto& cell : row) cells.push_back(cell.text);
    text += exchange::write_csv_row(cells);
  }
  return text;
}

// Files of this process in memory where there is such a folder; each run writes them anew.
const std::string& scratch_file() {
  static const std::string path = [] {
    const auto folder = std::filesystem::is_directory("/dev/shm")
                            ? std::filesystem::path("/dev/shm")
                            : std::filesystem::temp_directory_path();
    return (folder / ("boltwitness-fuzz-" + std::to_string(::getpid()) + ".bolts")).string();
  }();
  return path;
}

class ScratchFile {
 public:
  explicit ScratchFile(std::string_view bytes) {
    remove();
    std::ofstream(scratch_file(), std::ios::binary) << bytes;
  }
  ~ScratchFile() { remove(); }
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;

 private:
  static void remove() {
    for (const char* tail : {"", "-wal", "-shm", "-journal"}) {
      std::error_code ignored;
      std::filesystem::remove(scratch_file() + tail, ignored);
    }
  }
};

template <class Work>
bool taken(const Work& work) {
  try {
    work();
    return true;
  } catch (const failure::Failure&) {
    return false;
  }
}

}  // namespace

void csv(std::string_view bytes) {
  const auto read = exchange::read_csv(bytes);
  if (!read.faults.empty()) return;
  const auto written = text_of(read.rows);
  const auto again = exchange::read_csv(written);
  promise(again.faults.empty(), "a table that was written has faults");
  // A row of one empty cell is an empty line, which is passed over.
  promise(text_of(again.rows) == written || written.find("\r\n\r\n") != std::string::npos ||
              written.starts_with("\r\n"),
          "a table reads back as another");
}

void json(std::string_view bytes) {
  (void)taken([&] {
    const auto copy = exchange::read_logbook_json(bytes);
    const auto written = exchange::write_logbook_json(copy);
    std::string again;
    const bool is_taken =
        taken([&] { again = exchange::write_logbook_json(exchange::read_logbook_json(written)); });
    promise(is_taken, "a copy that was written is refused");
    promise(again == written, "a copy reads back as another");
  });
}

void picture(std::string_view bytes) {
  record::Picture read;
  if (!taken([&] { read = record::read_picture(bytes); })) return;
  std::string again;
  promise(taken([&] { again = record::read_picture(read.bytes).bytes; }),
          "a picture that was kept is refused");
  promise(again == read.bytes, "a picture reads back as another");
  promise(read.bytes.size() <= bytes.size() + 64, "a picture grows when it is read");
}

void logbook_file(std::string_view bytes) {
  const ScratchFile file(bytes);
  const bool answered = taken([&] {
    const auto logbook = logbook::Logbook::open_to_read(scratch_file());
    (void)logbook.job();
    logbook::Logbook::Unreadable unreadable;
    (void)logbook.history(unreadable);
  });
  std::optional<record::Verification> verified;
  (void)taken([&] { verified = logbook::verify(scratch_file()); });
  if (!answered) return;
  promise(verified.has_value(), "a logbook that answers cannot be verified");
  promise(verified->unsound.empty(), "an unsound logbook answers");
}

}  // namespace fuzz
