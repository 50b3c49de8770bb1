// Photographs read back as they were kept, nobody can change them unseen, and their bytes are in
// nobody's way.

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <cstdio>
#include <fstream>

#include "act/photograph_entry.h"
#include "logbook/digest.h"
#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/own_functions.h"
#include "logbook/recording.h"
#include "logbook/soundness.h"
#include "logbook/verification.h"
#include "record/picture.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "support/temporary_folder.h"

namespace photograph_rows_test {

namespace {

logbook::Writer writer() {
  const auto now = record::read_moment("2026-06-20T08:00:00Z");
  return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
}

record::Photograph shown_by(const std::string& bytes) {
  return act::photograph_of(record::read_picture(bytes));
}

// One photograph of positions and one of the machine.
class Photographed {
 public:
  Photographed() {
    record::LogbookStart start;
    start.machine = "GB-1";
    logbook::start_logbook(path(), start, writer());
    auto open = logbook::Logbook::open_to_write(path());
    logbook::Recording recording(open, writer());
    auto photograph = shown_by(first);
    photograph.joint = "J06";
    photograph.positions = {2, 3};
    photograph.note = "washer marks";
    photograph.deviation = "found-low:J06/02";
    recording.keep_photograph(first);
    recording.append(photograph);
    recording.keep_photograph(second);
    recording.append(shown_by(second));
    recording.commit();
  }

  [[nodiscard]] std::string path() const { return folder.file("gb1.bolts"); }

  // What somebody does with a shell that takes away what is in the way.
  void behind_its_back(const std::string& sql) const {
    SQLite::Database shell(path(), SQLite::OPEN_READWRITE);
    std::vector<std::string> names;
    std::vector<std::string> triggers;
    {
      SQLite::Statement row(shell,
                            "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND "
                            "name GLOB 'photograph_bytes*'");
      while (row.executeStep()) {
        names.push_back(row.getColumn(0).getString());
        triggers.push_back(row.getColumn(1).getString());
      }
    }
    for (const auto& name : names) shell.exec("DROP TRIGGER " + name);
    shell.exec(sql);
    for (const auto& trigger : triggers) shell.exec(trigger);
  }

  [[nodiscard]] std::vector<record::PhotographMisfit> misfits() const {
    return logbook::verify(path()).photographs;
  }

  TemporaryFolder folder;
  std::string first = plain_png(9, 7, 200);
  std::string second = picture_file("mark.jpg");
};

using Fault = record::PhotographMisfit::Fault;

}  // namespace

TEST_CASE("photographs read back as they were", "[logbook]") {
  const Photographed written;
  const auto logbook = logbook::Logbook::open_to_read(written.path());
  const auto job = logbook.job_of("j06");
  REQUIRE(job.photographs.size() == 1);
  const auto& photograph = job.photographs.front().content;
  CHECK(photograph.joint == "J06");
  CHECK(photograph.positions == std::vector<int>{2, 3});
  CHECK(photograph.note == "washer marks");
  CHECK(photograph.deviation == "found-low:J06/02");
  CHECK(photograph.format == record::PictureFormat::Png);
  CHECK(photograph.width == 9);
  CHECK(photograph.height == 7);
  CHECK(photograph.length == static_cast<std::int64_t>(written.first.size()));
  CHECK(logbook.job().photographs.size() == 2);
  CHECK(logbook.photographs().size() == 2);
  const bool is_first = logbook.bytes_of(photograph) == written.first;
  CHECK(is_first);
  const bool is_second = logbook.bytes_of(logbook.photographs().back().content) == written.second;
  CHECK(is_second);
  CHECK(logbook::verify(written.path()).fits());
}

TEST_CASE("the SHA-256 of a photograph is the one that sha256sum gives", "[logbook]") {
  const Photographed written;
  const auto file = written.folder.file("second.jpg");
  std::ofstream(file, std::ios::binary) << written.second;
  std::string sum(64, '\0');
  auto* answer = ::popen(("sha256sum " + file).c_str(), "r");
  REQUIRE(answer != nullptr);
  const auto count = std::fread(sum.data(), 1, sum.size(), answer);
  ::pclose(answer);
  REQUIRE(count == sum.size());
  const auto logbook = logbook::Logbook::open_to_read(written.path());
  CHECK(logbook.photographs().back().content.sha256 == sum);
}

TEST_CASE("no photograph can be changed, removed or replaced", "[logbook]") {
  const Photographed written;
  SQLite::Database shell(written.path(), SQLite::OPEN_READWRITE);
  for (const std::string table : {"photograph", "photograph_position"}) {
    CHECK_THROWS_WITH(shell.exec("UPDATE " + table + " SET entry_id = 'x'"),
                      ContainsSubstring("never changed"));
    CHECK_THROWS_WITH(shell.exec("DELETE FROM " + table), ContainsSubstring("never removed"));
    CHECK_THROWS_WITH(shell.exec("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table),
                      ContainsSubstring("never after"));
  }
  CHECK_THROWS_WITH(shell.exec("UPDATE photograph_bytes SET bytes = x'00'"),
                    ContainsSubstring("never changed"));
  CHECK_THROWS_WITH(shell.exec("DELETE FROM photograph_bytes"), ContainsSubstring("never removed"));
}

TEST_CASE("the shell puts in no photograph, and nobody one under another's SHA-256", "[logbook]") {
  const Photographed written;
  SQLite::Database shell(written.path(), SQLite::OPEN_READWRITE);
  // FIPS 180-4, its example "abc" (NIST's sheet of intermediate values).
  const std::string abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  const auto put_in = [&](const std::string& sha256, const std::string& bytes) {
    shell.exec("INSERT INTO photograph_bytes (sha256, bytes) VALUES ('" + sha256 + "', " + bytes +
               ")");
  };
  CHECK_THROWS_WITH(put_in(abc, "x'616263'"), ContainsSubstring("no such function: sha256_of"));
  CHECK_THROWS_WITH(
      shell.exec("INSERT OR REPLACE INTO photograph_bytes SELECT * FROM photograph_bytes"),
      ContainsSubstring("no such function: sha256_of"));
  CHECK(written.misfits().empty());

  logbook::add_own_functions(shell);
  CHECK(shell.execAndGet("SELECT sha256_of('abc')").getString() == abc);
  CHECK(shell.execAndGet("SELECT sha256_of(zeroblob(0))").getString() == logbook::sha256(""));
  CHECK(shell.execAndGet("SELECT sha256_of(NULL) IS NULL").getInt() == 1);
  for (const auto* bytes : {"x'616264'", "x''", "x'61626300'", "NULL"}) {
    INFO(bytes);
    CHECK_THROWS_WITH(put_in(abc, bytes), ContainsSubstring("under their own SHA-256"));
  }
  CHECK_THROWS_WITH(
      shell.exec("INSERT OR REPLACE INTO photograph_bytes SELECT * FROM photograph_bytes"),
      ContainsSubstring("never replaced"));
  CHECK(written.misfits().empty());
  put_in(abc, "x'616263'");
  REQUIRE(written.misfits().size() == 1);
  CHECK(written.misfits().front().fault == Fault::OfNoLine);
}

TEST_CASE("verify tells a photograph that was changed, taken out or put in", "[logbook]") {
  const Photographed written;
  const auto fault = [&] {
    const auto found = written.misfits();
    REQUIRE(found.size() == 1);
    return found.front();
  };
  SECTION("changed") {
    written.behind_its_back(
        "UPDATE photograph_bytes SET bytes = zeroblob(length(bytes)) "
        "WHERE length(bytes) < 300");
    CHECK(fault().fault == Fault::Changed);
    CHECK(fault().line == 2);
  }
  SECTION("taken out") {
    written.behind_its_back("DELETE FROM photograph_bytes WHERE length(bytes) > 300");
    CHECK(fault().fault == Fault::Missing);
    CHECK(fault().line == 3);
  }
  SECTION("put in") {
    written.behind_its_back("INSERT INTO photograph_bytes VALUES ('" + logbook::sha256("x") +
                            "', CAST('x' AS BLOB))");
    CHECK(fault().fault == Fault::OfNoLine);
    CHECK(fault().sha256 == logbook::sha256("x"));
  }
  CHECK_FALSE(logbook::verify(written.path()).fits());
}

TEST_CASE("what is no such picture is not shown, whatever its hashes say", "[logbook]") {
  const Photographed written;
  auto open = logbook::Logbook::open_to_write(written.path());
  const std::string page = "<svg xmlns='http://www.w3.org/2000/svg'/>";
  auto photograph = shown_by(written.first);
  photograph.length = static_cast<std::int64_t>(page.size());
  photograph.sha256 = logbook::sha256(page);
  {
    logbook::Recording recording(open, writer());
    recording.keep_photograph(page);
    recording.append(photograph);
    recording.commit();
  }
  CHECK_THROWS_WITH(open.bytes_of(photograph), ContainsSubstring("not shown"));
  const auto found = written.misfits();
  REQUIRE(found.size() == 1);
  CHECK(found.front().fault == Fault::AnotherPicture);
}

TEST_CASE("bytes that were damaged are in nobody's way but of who shows them", "[logbook]") {
  const Photographed written;
  written.behind_its_back("UPDATE photograph_bytes SET bytes = zeroblob(length(bytes))");
  auto logbook = logbook::Logbook::open_to_write(written.path());
  const auto job = logbook.job();
  CHECK(job.photographs.size() == 2);
  CHECK_THROWS_WITH(logbook.bytes_of(job.photographs.front().content),
                    ContainsSubstring("not what was kept"));
  logbook::Recording recording(logbook, writer());
  recording.append(record::Strike{job.photographs.front().stamp.id, "damaged"});
  recording.commit();
  CHECK(logbook.photographs().size() == 1);
}

TEST_CASE("photographs do not make a small logbook a large one", "[logbook]") {
  const Photographed written;
  {
    auto logbook = logbook::Logbook::open_to_write(written.path());
    logbook::Recording recording(logbook, writer());
    for (int shade = 0; shade < 3; ++shade) {
      const auto large = plain_png(2000, 2000, static_cast<unsigned>(shade));
      recording.keep_photograph(large);
      recording.append(shown_by(large));
    }
    recording.commit();
  }
  SQLite::Database shell(written.path(), SQLite::OPEN_READONLY);
  const auto bytes = shell.execAndGet("PRAGMA page_count").getInt64() *
                     shell.execAndGet("PRAGMA page_size").getInt64();
  CHECK(bytes > std::int64_t{11} << 20);
  CHECK(logbook::is_checked_whole(shell));
  // Nothing of them is read where a job is: less than a megabyte passes.
  SQLite::Database counted(written.path(), SQLite::OPEN_READONLY);
  logbook::check_structure(counted, written.path());
  int read = 0;
  int most = 0;
  sqlite3_db_status(counted.getHandle(), SQLITE_DBSTATUS_CACHE_MISS, &read, &most, 0);
  const auto page = shell.execAndGet("PRAGMA page_size").getInt();
  CHECK(static_cast<std::int64_t>(read) * page < std::int64_t{1} << 20);
}

}  // namespace photograph_rows_test
