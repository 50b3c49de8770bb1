#include "logbook/photograph_bytes.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "failure/failure.h"
#include "logbook/digest.h"
#include "logbook/schema.h"
#include "record/logbook_copy.h"
#include "record/picture.h"

namespace logbook {
namespace {

using PictureFault = record::PhotographMisfit::Fault;

// What a line says of its photograph, held against its bytes.
std::optional<PictureFault> fault_of(const std::optional<std::string>& bytes, std::int64_t length,
                                     const std::string& format, int width, int height) {
  if (!bytes) return PictureFault::Changed;
  if (static_cast<std::int64_t>(bytes->size()) != length) return PictureFault::AnotherPicture;
  try {
    const auto picture = record::read_picture(*bytes);
    const bool is_it = record::word_of(picture.format) == format && picture.width == width &&
                       picture.height == height && picture.bytes == *bytes;
    return is_it ? std::nullopt : std::optional(PictureFault::AnotherPicture);
  } catch (const failure::InputError&) {
    return PictureFault::AnotherPicture;
  }
}

bool are_there(SQLite::Database& database, const std::string& sha256) {
  SQLite::Statement row(database, "SELECT 1 FROM photograph_bytes WHERE sha256 = ?");
  row.bind(1, sha256);
  return row.executeStep();
}

}  // namespace

std::string keep_photograph_bytes(SQLite::Database& database, std::string_view bytes) {
  auto hash = sha256(bytes);
  if (are_there(database, hash)) return hash;
  SQLite::Statement row(database, "INSERT INTO photograph_bytes (sha256, bytes) VALUES (?, ?)");
  row.bind(1, hash);
  row.bindNoCopy(2, bytes.data(), static_cast<int>(bytes.size()));
  row.exec();
  return hash;
}

std::optional<std::string> photograph_bytes(SQLite::Database& database, const std::string& hash) {
  SQLite::Statement row(database, "SELECT bytes FROM photograph_bytes WHERE sha256 = ?");
  row.bind(1, hash);
  if (!row.executeStep()) return std::nullopt;
  auto bytes = row.getColumn(0).getString();
  if (sha256(bytes) != hash) return std::nullopt;
  return bytes;
}

std::vector<std::string> kept_photographs(SQLite::Database& database) {
  std::vector<std::string> hashes;
  if (schema_version(database) < record::kFirstSchemaWithPhotographs) return hashes;
  SQLite::Statement row(database, "SELECT sha256 FROM photograph_bytes ORDER BY sha256");
  while (row.executeStep()) hashes.push_back(row.getColumn(0).getString());
  return hashes;
}

std::int64_t photograph_bytes_named(SQLite::Database& database) {
  if (schema_version(database) < record::kFirstSchemaWithPhotographs) return 0;
  return database
      .execAndGet(R"(
          SELECT coalesce(sum(length_bytes), 0)
          FROM (SELECT DISTINCT sha256, length_bytes FROM photograph))")
      .getInt64();
}

std::vector<record::PhotographMisfit> check_photographs(SQLite::Database& database) {
  std::vector<record::PhotographMisfit> misfits;
  SQLite::Statement row(database, R"(
      SELECT e.line, p.sha256, p.length_bytes, p.format, p.width_px, p.height_px
      FROM photograph p JOIN entry e ON e.id = p.entry_id
      ORDER BY p.sha256, e.line)");
  std::string last;
  std::optional<std::string> bytes;
  while (row.executeStep()) {
    auto hash = row.getColumn(1).getString();
    const auto line = row.getColumn(0).getInt64();
    if (!are_there(database, hash)) {
      misfits.push_back({PictureFault::Missing, line, std::move(hash)});
      continue;
    }
    if (hash != last) bytes = photograph_bytes(database, hash);
    last = hash;
    const auto fault = fault_of(bytes, row.getColumn(2).getInt64(), row.getColumn(3).getString(),
                                row.getColumn(4).getInt(), row.getColumn(5).getInt());
    if (fault) misfits.push_back({*fault, line, std::move(hash)});
  }
  SQLite::Statement alone(database, R"(
      SELECT sha256 FROM photograph_bytes
      WHERE sha256 NOT IN (SELECT sha256 FROM photograph) ORDER BY sha256)");
  while (alone.executeStep()) {
    misfits.push_back({PictureFault::OfNoLine, 0, alone.getColumn(0).getString()});
  }
  return misfits;
}

}  // namespace logbook
