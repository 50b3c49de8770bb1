#include "logbook/signature.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "failure/failure.h"
#include "logbook/digest.h"
#include "logbook/guarded.h"
#include "logbook/hash_chain.h"
#include "logbook/lasting_commit.h"
#include "logbook/verification.h"

namespace logbook {

std::string signed_text(const std::string& hash, const std::string& by, const std::string& at) {
  return fmt::format("boltwitness signature 1\nhash {}\nby {}\nat {}\n", hash, by, at);
}

bool signature_fits(const std::string& hash, const std::string& by, const std::string& at,
                    const std::string& public_key, const std::string& signature) {
  return !hash.empty() && signed_by(public_key, signed_text(hash, by, at), signature);
}

namespace {

bool is_signed(SQLite::Database& database, std::int64_t line, const std::string& public_key) {
  SQLite::Statement known(database, R"(
      SELECT 1 FROM signature JOIN entry ON id = line_id
      WHERE line = :line AND public_key = :key)");
  known.bind(":line", line);
  known.bind(":key", public_key);
  return known.executeStep();
}

void sign(SQLite::Database& database, const record::ChainCheck::Hashed& end, const std::string& by,
          const std::string& at, const SigningKey& key) {
  SQLite::Statement row(database, R"(
      INSERT INTO signature (line_id, public_key, by_whom, signed_at, signature)
      SELECT id, :key, :by, :at, :signature FROM entry WHERE line = :line)");
  row.bind(":key", key.public_key());
  row.bind(":by", by);
  row.bind(":at", at);
  row.bind(":signature", key.sign(signed_text(end.hash, by, at)));
  row.bind(":line", end.line);
  row.exec();
}

// The line and all that it names as before it, in turn (hash_chain.h).
std::vector<record::SignatureCheck::Run> lines_up_to(SQLite::Database& database,
                                                     std::int64_t line) {
  std::vector<record::SignatureCheck::Run> runs;  // the last first
  SQLite::Statement row(database, R"(
      SELECT e.line, h.hash, h.file_before FROM entry e JOIN line_hash h ON h.entry_id = e.id
      WHERE e.line <= :line ORDER BY e.line DESC)");
  row.bind(":line", line);
  std::set<std::string> before;
  for (bool is_first = true; row.executeStep(); is_first = false) {
    if (before.erase(row.getColumn(1).getString()) == 0 && !is_first) continue;
    for (auto& each : hashes_in(row.getColumn(2).getString())) before.insert(std::move(each));
    const auto number = row.getColumn(0).getInt64();
    if (!runs.empty() && runs.back().first == number + 1) {
      runs.back().first = number;
    } else {
      runs.push_back({number, number});
    }
  }
  std::ranges::reverse(runs);
  return runs;
}

}  // namespace

std::vector<record::ChainCheck::Hashed> sign_to_the_end(Logbook& logbook, const std::string& by,
                                                        record::Moment now,
                                                        const std::function<SigningKey()>& key_of) {
  const auto& path = logbook.path_;
  auto& database = *logbook.database_;
  return guarded_write(path, [&] {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    const auto found = verify_open(database, Look::AtLinesToo);
    if (!found.fits()) {
      throw failure::Refusal(fmt::format(
          "{} is not as boltwitness wrote it, or holds what cannot be read, so it was not signed; "
          "\"boltwitness verify\" tells what does not fit",
          path));
    }
    const auto key = key_of();
    auto ends = found.chain->ends;
    const auto last = ends.back().line;
    std::erase_if(ends,
                  [&](const auto& end) { return is_signed(database, end.line, key.public_key()); });
    if (ends.empty()) {
      throw failure::Refusal(
          fmt::format("line {} is the last one and bears a signature of this key already", last));
    }
    for (const auto& end : ends) sign(database, end, by, record::write_utc(now), key);
    commit_for_good(database, transaction, path);
    return ends;
  });
}

std::vector<record::SignatureCheck> check_signatures(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT coalesce(e.line, 0), coalesce(h.hash, ''), s.by_whom, s.signed_at, s.public_key,
             s.signature
      FROM signature s LEFT JOIN entry e ON e.id = s.line_id
                       LEFT JOIN line_hash h ON h.entry_id = s.line_id
      ORDER BY e.line, s.public_key, s.signed_at, s.by_whom)");
  std::vector<record::SignatureCheck> all;
  while (row.executeStep()) {
    const auto text = [&](int column) { return row.getColumn(column).getString(); };
    record::SignatureCheck check{row.getColumn(0).getInt64(), text(2), text(3), text(4), {}, false};
    check.fingerprint = sha256(check.public_key);
    check.fits =
        check.line > 0 && signature_fits(text(1), check.by, check.at, check.public_key, text(5));
    all.push_back(std::move(check));
  }
  if (all.empty()) return all;
  const bool is_merged =
      end_hashes(database).size() > 1 || !database
                                              .execAndGet(
                                                  "SELECT max(entry_id) FROM line_hash "
                                                  "WHERE length(file_before) > 64")
                                              .isNull();
  for (auto& check : all) {
    if (is_merged) {
      check.over = lines_up_to(database, check.line);
    } else if (check.line > 0) {
      check.over = {{1, check.line}};
    }
  }
  return all;
}

}  // namespace logbook
