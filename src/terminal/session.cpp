#include "terminal/session.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <system_error>
#include <vector>

#include "failure/failure.h"
#include "logbook/backup.h"
#include "logbook/beside_file.h"
#include "logbook/lock_holder.h"
#include "logbook/logbook_error.h"
#include "quantity/ascii.h"
#include "record/photograph.h"
#include "record/typed_text.h"
#include "terminal/bounded_file.h"
#include "terminal/inert_stream.h"
#include "terminal/locale_characters.h"
#include "terminal/time_zone.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> logbooks_in(const fs::path& folder) {
  std::vector<std::string> found;
  std::error_code problem;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    std::error_code ignored;
    if (at->path().extension() == logbook::kLogbookSuffix && at->is_regular_file(ignored)) {
      found.push_back(at->path().string());
    }
  }
  std::ranges::sort(found);
  return found;
}

// Of these files of one folder those that are no copies of another one there, by their names.
std::vector<std::string> without_copies(const std::vector<std::string>& files) {
  std::vector<std::string> originals;
  std::ranges::copy_if(files, std::back_inserter(originals), [&](const std::string& file) {
    return std::ranges::none_of(
        files, [&](const std::string& other) { return logbook::is_named_as_copy(file, other); });
  });
  return originals;
}

}  // namespace

Session::Session(Context& context, const GlobalOptions& options)
    : context_(context),
      options_(options),
      waiting_([this](const std::string& path) { tell_held(path); }, context.patience) {}

words::Page Session::page() const {
  const bool plain = options_.no_color || !context_.environment("NO_COLOR").value_or("").empty();
  return {context_.width, context_.terminal && !plain};
}

screen::LargeLetters Session::large_letters() const {
  const auto terminal = context_.environment("TERM").value_or("");
  if (!context_.terminal || terminal.empty() || terminal == "dumb") {
    return screen::LargeLetters::None;
  }
  const auto characters = locale_characters(context_.environment);
  return characters && is_utf_8(*characters) ? screen::LargeLetters::Blocks
                                             : screen::LargeLetters::Ascii;
}

bool Session::scrolls_away(const std::string& answer) const {
  return context_.height > 0 &&
         std::ranges::count(answer, '\n') >= static_cast<std::ptrdiff_t>(context_.height);
}

void Session::answer_text(const std::string& answer, const std::string& in_short) const {
  context_.out << answer;
  if (scrolls_away(answer)) context_.out << '\n' << in_short;
}

void Session::read_text(const std::string& text) const {
  if (context_.pager && scrolls_away(text)) {
    context_.pager(text);
  } else {
    context_.out << text;
  }
}

words::Page Session::prose_page() const {
  constexpr std::size_t kWidestProse = 100;
  auto prose = page();
  prose.width = std::min(prose.width, kWidestProse);
  return prose;
}

void Session::tell(const act::Done& done) const {
  const auto& lines = done.lines;
  out() << (options_.json ? screen::written_json(lines) : screen::written_text(lines, page()));
  context_.out.flush();
  if (context_.out) return remark(done.remarks);
  std::string numbers;
  for (const auto& line : lines) {
    numbers += fmt::format("{}line {}", numbers.empty() ? "" : " and ", line.stamp.line);
  }
  throw failure::OutputLost(fmt::format(
      "{} {} written and safe, but could not be shown (is the disk full?); do not enter it again",
      numbers, lines.size() == 1 ? "is" : "are"));
}

std::string Session::reachable(std::string path) const {
  if (context_.folder.empty() && !fs::path(path).is_absolute()) {
    throw logbook::LogbookError(
        logbook::LogbookError::Kind::Unreachable,
        "the current folder is gone or cannot be entered; nothing was written; change to one that "
        "is there (cd), or name the logbook from the root of the disk");
  }
  return path;
}

void Session::remark(const std::string& text) const {
  context_.err << words::wrapped(text, prose_page().width, "note: ", "      ");
}

void Session::remark(const std::vector<std::string>& texts) const {
  for (const auto& text : texts) remark(text);
}

std::optional<std::string> Session::answer(const std::string& prompt, std::string_view keys) const {
  context_.out.flush();
  if (context_.answer) return context_.answer(prompt, keys);
  context_.out << prompt << '\n' << std::flush;
  return context_.line();
}

void Session::overwrite(const std::string& line) const {
  context_.err << kStartOverLine << line << std::flush;
}

std::string Session::new_logbook_path() const {
  if (!options_.log.empty()) return reachable(options_.log);
  if (const auto named = context_.environment("BOLTWITNESS_LOG"); named && !named->empty()) {
    return reachable(*named);
  }
  throw failure::UsageError("name the new logbook with --log, such as --log copy.bolts");
}

std::string Session::picture_in(const std::string& file) const {
  constexpr auto kMost = record::kMostPhotographBytes;
  if (file != "-") return read_bounded_file(reachable(file), kMost);
  auto content = context_.input(kMost + 1);
  if (content.size() > kMost) refuse_too_large("what came in", kMost);
  return content;
}

std::string Session::logbook_path() const {
  if (!options_.log.empty()) return reachable(options_.log);
  if (const auto named = context_.environment("BOLTWITNESS_LOG"); named && !named->empty()) {
    return reachable(*named);
  }
  (void)reachable(".");
  for (fs::path folder = context_.folder;; folder = folder.parent_path()) {
    const auto found = without_copies(logbooks_in(folder));
    if (found.size() == 1) return found.front();
    if (found.size() > 1) {
      std::string names;
      for (const auto& name : found) names += "\n  " + name;
      throw failure::UsageError("more than one logbook lies here; choose one with --log:" + names);
    }
    if (folder == folder.parent_path()) break;
  }
  throw failure::UsageError(
      "no logbook named and no *.bolts file in this folder or above; start one with "
      "\"boltwitness start FILE --machine ...\", or name one with --log FILE");
}

logbook::Logbook Session::open_to_read() const {
  auto logbook = logbook::Logbook::open_to_read(logbook_path(), waiting_);
  same_.check(logbook);
  return logbook;
}

logbook::Logbook Session::open_to_try() const {
  auto logbook = logbook::Logbook::open_to_try(logbook_path(), waiting_);
  same_.check(logbook);
  return logbook;
}

logbook::Logbook Session::open_to_write() const {
  auto logbook = logbook::Logbook::open_to_write(logbook_path(), waiting_);
  same_.check(logbook);
  remark_on_clock(logbook);
  return logbook;
}

bool Session::is_ready_to_write() const {
  return logbook::Logbook::is_ready_to_write(logbook_path(), waiting_);
}

void Session::settle_zone() const {
  const auto zone = context_.environment("TZ").value_or("");
  const auto folder = context_.environment("TZDIR");
  if (is_known_zone(zone, folder)) return;
  take_utc();
  remark(
      fmt::format("TZ={} names no time zone that this machine has, so times are read and shown "
                  "as UTC; expected one such as Europe/Paris, or none for the machine's own",
                  zone));
}

void Session::tell_held(const std::string& path) const {
  const auto holder = logbook::lock_holder(path);
  remark(
      fmt::format("{} is held by {}; waiting until that one has finished; Ctrl-C gives up, and "
                  "nothing is written then",
                  path, holder.empty() ? "another program" : holder));
  context_.err.flush();
}

void Session::remark_on_clock(const logbook::Logbook& logbook) const {
  if (is_clock_told_) return;
  const auto last = logbook.last_entered();
  if (!last || *last <= context_.now() + std::chrono::minutes(1)) return;
  is_clock_told_ = true;
  remark(
      fmt::format("this machine's clock says {}, but the last line was entered at {}; put the "
                  "clock right, and say with --at when it was done",
                  record::write_local(context_.now()), record::write_local(*last)));
}

std::string Session::data_folder() const {
  if (const auto data = context_.environment("XDG_DATA_HOME"); data && !data->empty()) {
    return (fs::path(*data) / "boltwitness").string();
  }
  const auto home = context_.environment("HOME").value_or("");
  if (home.empty()) {
    throw failure::UsageError(
        "there is no home folder to keep a key in; set HOME or XDG_DATA_HOME");
  }
  return (fs::path(home) / ".local/share/boltwitness").string();
}

std::optional<std::string> Session::state_folder() const {
  if (const auto state = context_.environment("XDG_STATE_HOME"); state && !state->empty()) {
    return (fs::path(*state) / "boltwitness").string();
  }
  const auto home = context_.environment("HOME").value_or("");
  if (home.empty()) return std::nullopt;
  return (fs::path(home) / ".local/state/boltwitness").string();
}

record::Moment Session::done_at() const {
  return options_.at.empty() ? context_.now() : record::read_moment(options_.at);
}

record::Day Session::day() const { return record::local_day(done_at()); }

logbook::Writer Session::writer() const {
  logbook::Writer writer;
  writer.by = options_.by;
  if (writer.by.empty()) writer.by = context_.environment("BOLTWITNESS_BY").value_or("");
  if (writer.by.empty()) writer.by = context_.login;
  if (writer.by.empty()) {
    throw failure::UsageError("nobody is named; say who did it with --by WHO or in BOLTWITNESS_BY");
  }
  writer.by = record::read_text(writer.by, "--by", 80);
  writer.now = context_.now();
  writer.done_at = options_.at.empty() ? writer.now : done_at();
  writer.check_is_past(writer.done_at);
  writer.device = context_.device();
  return writer;
}

}  // namespace terminal
