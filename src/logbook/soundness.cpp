#include "logbook/soundness.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "logbook/canonical_line.h"
#include "logbook/chain_check.h"
#include "logbook/every_kind.h"
#include "logbook/failed_checks.h"
#include "logbook/hash_chain.h"
#include "logbook/logbook_error.h"
#include "logbook/out_of_place.h"
#include "logbook/photograph_bytes.h"
#include "logbook/rows/content_tables.h"
#include "logbook/rows/strike_rows.h"
#include "logbook/second_indexes.h"
#include "logbook/signature.h"

namespace logbook {
namespace {

using Fault = record::ChainCheck::Fault;
using Misfit = record::ChainCheck::Misfit;

constexpr const char* kSeeVerify = "\"boltwitness verify\" tells all that does not fit";

[[noreturn]] void refuse_damaged(const std::string& path, const std::string& what) {
  throw LogbookError(LogbookError::Kind::Damaged, fmt::format("{}: {}", path, what));
}

// What else there is to do than to go back to a copy; `strikes` is nothing where that was not
// looked at, for which the whole logbook is read.
std::string or_strike(std::int64_t line, std::optional<record::Strikes> strikes) {
  if (!strikes) return "; \"boltwitness status\" tells whether striking it is enough";
  if (*strikes == record::Strikes::AreNotEnough) return {};
  return fmt::format(
      ", or \"boltwitness strike {} --why TEXT\" takes it out of what counts, then enter it again",
      line);
}

std::string line_does_not_fit(std::int64_t line, std::optional<record::Strikes> strikes) {
  return fmt::format(
      "line {} is not what was written: it was changed behind the program, or the disk failed; "
      "{}; go back to a copy{}",
      line, kSeeVerify, or_strike(line, strikes));
}

std::string struck_line_does_not_fit(std::int64_t line) {
  return fmt::format(
      "line {} is struck, and not what was written: it was changed behind the program, or the disk "
      "failed; no copy takes it; {}; go back to a copy, or export the tables alone: boltwitness "
      "export findings",
      line, kSeeVerify);
}

// The line by itself; what was before it is as it was. Of one without a hash nothing that comes
// after it can name what it follows.
bool is_of_the_line_itself(const Misfit& misfit) {
  return misfit.line > 1 && (misfit.fault == Fault::Changed || misfit.fault == Fault::NoContent);
}

bool is_told_by_itself(const Misfit& misfit) {
  return is_of_the_line_itself(misfit) || (misfit.line > 1 && misfit.fault == Fault::NoHash);
}

std::string in_words(const Misfit& misfit, record::Strikes strikes) {
  if (is_told_by_itself(misfit)) return line_does_not_fit(misfit.line, strikes);
  return fmt::format(
      "{} behind the program, or the disk failed; {}; go back to a copy",
      misfit.line > 1
          ? fmt::format("lines before line {} were changed, taken out or put in", misfit.line)
      : misfit.line == 0 ? std::string("a line was taken out, or what belongs to none was put in")
                         : std::string("the first line was changed, taken out or put in"),
      kSeeVerify);
}

std::unordered_set<std::string> struck_lines(SQLite::Database& database) {
  SQLite::Statement row(database, "SELECT struck_id FROM strike");
  std::unordered_set<std::string> struck;
  while (row.executeStep()) struck.insert(row.getColumn(0).getString());
  return struck;
}

bool can_be_struck(SQLite::Database& database, const Misfit& misfit) {
  SQLite::Statement row(database, "SELECT kind FROM entry WHERE id = ?");
  row.bind(1, misfit.id);
  return is_of_the_line_itself(misfit) && row.executeStep() &&
         record::can_be_struck({misfit.line, misfit.id, row.getColumn(0).getString(), {}});
}

bool is_passed_over(const Misfit& misfit, const std::unordered_set<std::string>& struck) {
  return misfit.line != 0 && misfit.fault != Fault::Numbers && struck.contains(misfit.id);
}

// The first line out of place, else the first strike of what cannot be struck, or of nothing.
std::optional<record::UnreadableLine> line_no_door_writes(SQLite::Database& database) {
  auto lines = lines_out_of_place(database);
  if (lines.empty()) lines = strikes_of_nothing(database);
  return lines.empty() ? std::nullopt : std::optional(std::move(lines.front()));
}

// Whether a line that nothing can strike, its hash right, is refused by every reader.
bool is_shut_for_good(SQLite::Database& database) {
  if (line_no_door_writes(database)) return true;
  std::vector<record::UnreadableLine> unreadable;
  (void)read_start(database, {.unreadable = unreadable, .struck_too = true});
  return !unreadable.empty();
}

// Whether nothing is wrong with lines, their places and signatures but lines that can be struck.
record::Strikes what_strikes_do_to(SQLite::Database& database, const record::ChainCheck& chain,
                                   const std::unordered_set<std::string>& struck) {
  const auto are_mended = std::ranges::all_of(chain.misfits, [&](const Misfit& misfit) {
    return is_passed_over(misfit, struck) || can_be_struck(database, misfit);
  });
  const bool do_mend =
      are_mended && chain.others == 0 &&
      std::ranges::all_of(check_signatures(database), &record::SignatureCheck::fits) &&
      !is_shut_for_good(database);
  return do_mend ? record::Strikes::Mend : record::Strikes::AreNotEnough;
}

std::string in_words(const record::UnreadableLine& line) {
  return fmt::format("line {} ({}): {}; {}; go back to a copy", line.line, line.kind, line.why,
                     kSeeVerify);
}

enum class Struck { HasToFit, IsPassedOver };

// The first thing in the file that does not fit, in words; one that names a line before one that
// cannot.
std::optional<std::string> first_misfit(SQLite::Database& database, const record::ChainCheck& chain,
                                        Struck of_struck) {
  if (!chain.misfits.empty()) {
    const auto struck = struck_lines(database);
    const auto strikes = what_strikes_do_to(database, chain, struck);
    const Misfit* of_no_line = nullptr;
    for (const auto& misfit : chain.misfits) {
      if (misfit.line == 0) {
        if (of_no_line == nullptr) of_no_line = &misfit;
      } else if (!is_passed_over(misfit, struck)) {
        return in_words(misfit, strikes);
      } else if (of_struck == Struck::HasToFit) {
        return struck_line_does_not_fit(misfit.line);
      }
    }
    if (of_no_line != nullptr) return in_words(*of_no_line, strikes);
    if (chain.others > 0) {
      return fmt::format("{} lines are not what was written; {}; go back to a copy",
                         chain.misfits.size() + static_cast<std::size_t>(chain.others), kSeeVerify);
    }
  }
  for (const auto& signature : check_signatures(database)) {
    if (signature.fits) continue;
    return fmt::format("the signature of {} {}; {}; go back to a copy", signature.by,
                       signature.line == 0 ? std::string("belongs to a line that is not there")
                                           : fmt::format("at line {} does not fit", signature.line),
                       kSeeVerify);
  }
  if (const auto line = line_no_door_writes(database)) return in_words(*line);
  return std::nullopt;
}

// One check of all pages; where there are photographs, one of each table but theirs. Their pages
// are most of the file, and each is held against its SHA-256 by whoever reads it.
std::vector<std::string> structure_checks(SQLite::Database& database) {
  constexpr const char* kOfAll = "PRAGMA integrity_check(1)";
  if (photograph_bytes_named(database) == 0) return {kOfAll};
  SQLite::Statement row(database, R"(
      SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'photograph_bytes'
      ORDER BY name)");
  std::vector<std::string> checks;
  while (row.executeStep()) {
    checks.push_back(
        fmt::format("PRAGMA integrity_check({})", quoted_name(row.getColumn(0).getString())));
  }
  return checks;
}

// What the library says of the first that contradicts another.
std::optional<std::string> structure_misfit(SQLite::Database& database) {
  for (const auto& check : structure_checks(database)) {
    SQLite::Statement row(database, check);
    if (!row.executeStep() || row.getColumn(0).getString() == "ok") continue;
    return row.getColumn(0).getString();
  }
  auto failed = failed_checks(database, 1);
  return failed.empty() ? std::nullopt : std::optional(std::move(failed.front()));
}

bool fits_its_hash(SQLite::Database& database, CanonicalLines& lines, const std::string& id) {
  SQLite::Statement row(database, R"(
      SELECT device_before, file_before, given_later, hash FROM line_hash WHERE entry_id = ?)");
  row.bind(1, id);
  if (!row.executeStep()) return false;
  const auto text = [&](int column) { return row.getColumn(column).getString(); };
  return text(3) == hash_of({text(0), text(1), text(2)}, lines.of(id));
}

}  // namespace

void check_structure(SQLite::Database& database, const std::string& path) {
  if (const auto found = structure_misfit(database)) {
    refuse_damaged(path, fmt::format("the file is damaged ({}); go back to a copy", *found));
  }
}

bool is_checked_whole(SQLite::Database& database) {
  constexpr std::int64_t kLargest = std::int64_t{8} << 20;
  const auto number = [&](const char* pragma) { return database.execAndGet(pragma).getInt64(); };
  return number("PRAGMA page_count") * number("PRAGMA page_size") -
             photograph_bytes_named(database) <=
         kLargest;
}

Soundness::Soundness(SQLite::Database& database, std::string path)
    : database_(database), path_(std::move(path)) {}
Soundness::~Soundness() = default;

std::optional<std::string> Soundness::misfit(const LineChecked& line_checked) {
  if (all_fits_) return std::nullopt;
  check_large_structure();
  const auto chain = check_chain(database_, {}, line_checked);
  auto found = first_misfit(database_, chain, Struck::IsPassedOver);
  all_fits_ = !found;
  // What is left of them is of lines that are struck.
  for (const auto& misfit : chain.misfits) altered_struck_.insert(misfit.id);
  return found;
}

record::Strikes Soundness::what_strikes_do() {
  if (all_fits_) return record::Strikes::Mend;
  if (!is_small() && structure_misfit(database_)) return record::Strikes::AreNotEnough;
  return what_strikes_do_to(database_, check_chain(database_), struck_lines(database_));
}

record::Strikes Soundness::what_strikes_do(const std::vector<record::UnreadableLine>& unreadable) {
  return std::ranges::all_of(unreadable, record::can_be_struck) ? what_strikes_do()
                                                                : record::Strikes::AreNotEnough;
}

bool Soundness::is_as_written(const record::Stamp& struck) {
  if (all_fits_) return !altered_struck_.contains(struck.id);
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  return fits_its_hash(database_, *lines_, struck.id);
}

void Soundness::check_ends() {
  if (end_hashes(database_).size() < 2 || !is_small()) return;
  const auto chain = check_chain(database_);
  const auto found = std::ranges::find(chain.misfits, Fault::NotAnEnd, &Misfit::fault);
  if (found != chain.misfits.end()) {
    refuse_damaged(path_, in_words(*found, record::Strikes::AreNotEnough));
  }
}

bool Soundness::is_small() {
  if (!is_small_) is_small_ = is_checked_whole(database_);
  return *is_small_;
}

void Soundness::check_large_structure() {
  if (!is_small()) check_structure(database_, path_);
}

void Soundness::check_all(const LineChecked& line_checked) {
  if (const auto found = misfit(line_checked)) refuse_damaged(path_, *found);
}

void Soundness::check_places() {
  if (places_fit_) return;
  if (!is_small()) second_indexes().check_strikes();
  if (const auto line = line_no_door_writes(database_)) refuse_damaged(path_, in_words(*line));
  places_fit_ = true;
}

void Soundness::check(const record::Job& job) {
  if (all_fits_) return;
  if (is_small()) return check_all();
  check_places();
  record::for_each_entry(job, [&](const auto& entry) { check_one(entry.stamp); });
}

void Soundness::check(const record::Stamp& line) {
  if (all_fits_) return;
  if (is_small()) return check_all();
  check_places();
  check_one(line);
}

void Soundness::check_one(const record::Stamp& line) {
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  if (fits_its_hash(database_, *lines_, line.id)) return;
  refuse_damaged(path_, line_does_not_fit(line.line, std::nullopt));
}

const SecondIndexes& Soundness::second_indexes() {
  if (!second_indexes_) second_indexes_ = std::make_unique<SecondIndexes>(database_, path_);
  return *second_indexes_;
}

void Soundness::check_lookups(std::string_view joint) {
  if (is_small()) return;
  check_places();
  second_indexes().check_joint(joint);
}

void Soundness::check_lookups_in(std::string_view table, std::string_view name) {
  if (is_small()) return;
  check_places();
  second_indexes().check_lines(table, name);
}

void Soundness::check_to_write() {
  if (is_small()) check_all();
}

void Soundness::check_to_strike(const std::vector<std::string>& struck_now) {
  if (!is_small() || all_fits_) return;
  const auto chain = check_chain(database_);
  auto struck_before = struck_lines(database_);
  for (const auto& id : struck_now) struck_before.erase(id);
  for (const auto& misfit : chain.misfits) {
    if (is_passed_over(misfit, struck_before) || is_of_the_line_itself(misfit)) continue;
    refuse_damaged(path_, in_words(misfit, record::Strikes::AreNotEnough));
  }
  const bool strikes_what_is_told = std::ranges::all_of(struck_now, [&](const auto& id) {
    return std::ranges::find(chain.misfits, id, &Misfit::id) != chain.misfits.end();
  });
  if (strikes_what_is_told && chain.others == 0) return;
  if (const auto found = first_misfit(database_, chain, Struck::IsPassedOver)) {
    refuse_damaged(path_, *found);
  }
}

void Soundness::check_for_copy(const LineChecked& line_checked) {
  if (struck_fit_too_) return;
  check_large_structure();
  if (const auto found =
          first_misfit(database_, check_chain(database_, {}, line_checked), Struck::HasToFit)) {
    refuse_damaged(path_, *found);
  }
  all_fits_ = struck_fit_too_ = true;
}

}  // namespace logbook
