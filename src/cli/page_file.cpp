#include "cli/page_file.h"

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <array>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "cli/errors.h"
#include "cli/session.h"
#include "logbook/logbook.h"
#include "report/written_file.h"

namespace cli {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kDatabase = "SQLite format 3";

std::string begin_of(const fs::path& file) {
  std::array<char, 128> bytes{};
  std::ifstream stream(file, std::ios::binary);
  stream.read(bytes.data(), bytes.size());
  return {bytes.data(), static_cast<std::size_t>(stream.gcount())};
}

// SQLite keeps lines that are committed beside the database for a while; there or not yet, the name
// belongs to the logbook.
void check_no_part_of_logbook(const fs::path& file) {
  const auto name = file.string();
  for (const std::string_view part : {"-wal", "-shm", "-journal"}) {
    if (!name.ends_with(part)) continue;
    const fs::path logbook = name.substr(0, name.size() - part.size());
    if (begin_of(logbook).starts_with(kDatabase)) {
      throw Refusal(
          fmt::format("{} belongs to {}, a logbook or another database; choose another "
                      "name",
                      name, logbook.string()));
    }
  }
}

void check_replaceable(const fs::path& file, bool replace) {
  check_no_part_of_logbook(file);
  std::error_code problem;
  const auto status = fs::status(file, problem);
  if (!fs::exists(status)) return;
  if (!fs::is_regular_file(status)) {
    throw Refusal(
        fmt::format("{} is no file; name one for --out, or leave --out away to have the "
                    "page on stdout",
                    file.string()));
  }
  const auto begin = begin_of(file);
  if (begin.starts_with(kDatabase)) {
    throw Refusal(
        fmt::format("{} is a logbook or another database; choose another name", file.string()));
  }
  if (!replace && !paper::is_our_page(begin)) {
    throw Refusal(
        fmt::format("{} is there and no page of this program; choose another name, or "
                    "add --replace-file",
                    file.string()));
  }
}

[[noreturn]] void lost(const fs::path& file, const char* what) {
  const auto why = std::generic_category().message(errno);
  throw OutputLost(
      fmt::format("{} could not be {}: {}; nothing was changed", file.string(), what, why));
}

// A file beside the one to come, removed again unless it took its place.
class DraftPage {
 public:
  explicit DraftPage(const fs::path& target)
      : target_(target), draft_((target.parent_path() / ".page-XXXXXX").string()) {
    handle_ = ::mkstemp(draft_.data());
    if (handle_ < 0) lost(target_, "written");
  }
  ~DraftPage() {
    if (handle_ >= 0) ::close(handle_);
    if (!draft_.empty()) ::unlink(draft_.c_str());
  }
  DraftPage(const DraftPage&) = delete;
  DraftPage& operator=(const DraftPage&) = delete;

  void write(std::string_view text) {
    while (!text.empty()) {
      const auto count = ::write(handle_, text.data(), text.size());
      if (count < 0 && errno == EINTR) continue;
      if (count < 0) lost(target_, "written");
      text.remove_prefix(static_cast<std::size_t>(count));
    }
  }

  void take_its_place() {
    const mode_t hidden = ::umask(0);
    ::umask(hidden);
    if (::fchmod(handle_, 0666 & ~hidden) != 0 || ::fsync(handle_) != 0) lost(target_, "written");
    if (::rename(draft_.c_str(), target_.c_str()) != 0) lost(target_, "put in its place");
    draft_.clear();
  }

 private:
  fs::path target_;
  std::string draft_;
  int handle_ = -1;
};

}  // namespace

void declare_page_options(CLI::App& command, PageOptions& options) {
  command.add_option("--out", options.out, "Write the page to this file; else to stdout")
      ->option_text("FILE");
  command.add_option("--page", options.size, "Paper: a4 (the default) or letter")
      ->option_text("SIZE");
  command.add_flag("--replace-file", options.replace_file,
                   "Replace the file even where it is no page of this program");
}

bool names_page(const PageOptions& options) {
  return !options.out.empty() || !options.size.empty() || options.replace_file;
}

paper::Imprint imprint_for(const PageOptions& options, const record::LogbookStart& start,
                           const logbook::Logbook& logbook, const Session& session) {
  paper::Imprint imprint{start.machine, session.done_at(), logbook.last_line()};
  if (!options.size.empty()) imprint.size = paper::read_paper_size(options.size);
  return imprint;
}

void give_out(const std::string& page, const PageOptions& options, const Session& session) {
  if (options.out.empty()) {
    if (session.json()) {
      throw UsageError("a page is HTML, not JSON; leave --json away, or name a file with --out");
    }
    session.out() << page;
    return;
  }
  // A link is followed, so that the file behind it is the one that is replaced.
  std::error_code problem;
  fs::path file = session.reachable(options.out);
  if (fs::is_symlink(file, problem)) file = fs::canonical(file, problem);
  if (problem) file = options.out;
  check_replaceable(file, options.replace_file);
  DraftPage draft(file);
  draft.write(page);
  draft.take_its_place();
  session.out() << (session.json() ? report::written_file_json(options.out)
                                   : report::written_file_text(options.out));
}

}  // namespace cli
