#include "logbook/soundness.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "logbook/canonical_line.h"
#include "logbook/chain_check.h"
#include "logbook/hash_chain.h"
#include "logbook/logbook_error.h"
#include "logbook/photograph_bytes.h"
#include "logbook/rows/content_tables.h"
#include "logbook/signature.h"

namespace logbook {
namespace {

using Fault = record::ChainCheck::Fault;
using Misfit = record::ChainCheck::Misfit;

constexpr const char* kSeeVerify = "\"boltwitness verify\" tells all that does not fit";

[[noreturn]] void refuse_damaged(const std::string& path, const std::string& what) {
  throw LogbookError(LogbookError::Kind::Damaged, fmt::format("{}: {}", path, what));
}

std::string line_does_not_fit(std::int64_t line) {
  return fmt::format(
      "line {0} is not what was written: it was changed behind the program, or the disk failed; "
      "{1}; go back to a copy, or \"boltwitness strike {0} --why TEXT\" takes it out of what "
      "counts, then enter it again",
      line, kSeeVerify);
}

// The line by itself, which is told as one to strike; what was before it is as it was.
bool is_of_the_line_itself(const Misfit& misfit) {
  return misfit.line > 1 && (misfit.fault == Fault::Changed || misfit.fault == Fault::NoHash ||
                             misfit.fault == Fault::NoContent);
}

std::string in_words(const Misfit& misfit) {
  if (is_of_the_line_itself(misfit)) return line_does_not_fit(misfit.line);
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

enum class Struck { HasToFit, IsPassedOver };

// The first thing in the file that does not fit, in words; one that names a line before one that
// cannot.
std::optional<std::string> first_misfit(SQLite::Database& database, const record::ChainCheck& chain,
                                        Struck of_struck) {
  if (!chain.misfits.empty()) {
    const auto struck = of_struck == Struck::IsPassedOver ? struck_lines(database)
                                                          : std::unordered_set<std::string>();
    const Misfit* of_no_line = nullptr;
    for (const auto& misfit : chain.misfits) {
      if (misfit.line == 0) {
        if (of_no_line == nullptr) of_no_line = &misfit;
      } else if (misfit.fault == Fault::Numbers || !struck.contains(misfit.id)) {
        return in_words(misfit);
      }
    }
    if (of_no_line != nullptr) return in_words(*of_no_line);
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
  for (const auto& check : structure_checks(database)) {
    SQLite::Statement row(database, check);
    if (!row.executeStep() || row.getColumn(0).getString() == "ok") continue;
    refuse_damaged(path, fmt::format("the file is damaged ({}); go back to a copy",
                                     row.getColumn(0).getString()));
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

bool Soundness::is_as_written(const record::Stamp& struck) {
  if (all_fits_) return !altered_struck_.contains(struck.id);
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  return fits_its_hash(database_, *lines_, struck.id);
}

void Soundness::check_ends() {
  if (end_hashes(database_).size() < 2 || !is_small()) return;
  const auto chain = check_chain(database_);
  const auto found = std::ranges::find(chain.misfits, Fault::NotAnEnd, &Misfit::fault);
  if (found != chain.misfits.end()) refuse_damaged(path_, in_words(*found));
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

void Soundness::check(const record::Job& job) {
  if (all_fits_) return;
  if (is_small()) return check_all();
  record::for_each_entry(job, [&](const auto& entry) { check_one(entry.stamp); });
}

void Soundness::check(const record::Stamp& line) {
  if (all_fits_) return;
  if (is_small()) return check_all();
  check_one(line);
}

void Soundness::check_one(const record::Stamp& line) {
  if (!lines_) lines_ = std::make_unique<CanonicalLines>(database_);
  if (fits_its_hash(database_, *lines_, line.id)) return;
  refuse_damaged(path_, line_does_not_fit(line.line));
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
    const bool is_passed_over = misfit.fault != Fault::Numbers && struck_before.contains(misfit.id);
    if (!is_passed_over && !is_of_the_line_itself(misfit)) refuse_damaged(path_, in_words(misfit));
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
