// Who vouches for a log, with a key of their own.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "logbook/own_functions.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/trial.h"

namespace sign_test {

using Catch::Matchers::StartsWith;

namespace {

namespace fs = std::filesystem;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    as("kb");
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
  }
  // At the machine of this person.
  void as(const std::string& person) {
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("home-" + person);
  }
  [[nodiscard]] std::string key_file(const std::string& person) const {
    return trial.folder().file("home-" + person) + "/boltwitness/signing-key";
  }
  void behind_its_back(const std::string& sql) const {
    SQLite::Database(path, SQLite::OPEN_READWRITE).exec(sql);
  }
  nlohmann::json verified() { return trial.run("verify --json").json(); }

  Trial trial;
  std::string path;
};

}  // namespace

TEST_CASE("a signature is told with who, up to where, and with which key", "[cli]") {
  Job job;
  const auto made = job.trial.done("sign");
  CHECK_THAT(made.told(), StartsWith("KB signed the log up to line 2, hash "));
  CHECK_THAT(made.said(), ContainsSubstring("was made for this: whoever has it signs as you"));
  const auto key = made.out.substr(made.out.find("key ") + 4, 19);
  job.trial.done("out J01/1");
  const auto answer = job.trial.done("verify");
  CHECK_THAT(answer.told(), ContainsSubstring("Signed up to line 2 by KB on 2026-06-01") &&
                                ContainsSubstring("key " + key + "; 1 line came after."));
  // The same key signs further, another's stands beside it.
  CHECK(job.trial.done("sign").err.empty());
  job.as("mo");
  job.trial.done("sign --by MO");
  const auto json = job.verified();
  CHECK(json["fits"] == true);
  REQUIRE(json["signatures"].size() == 3);
  CHECK(json["signatures"][0]["line"] == 2);
  CHECK(json["signatures"][1]["line"] == 3);
  // Line 2 with the first key; line 3 with both.
  std::set<std::string> keys;
  for (const auto& each : json["signatures"]) keys.insert(each["public_key"].get<std::string>());
  CHECK(keys.size() == 2);
}

TEST_CASE("the key is made once, and nobody else can read it", "[cli]") {
  Job job;
  job.trial.done("sign");
  struct stat status {};
  REQUIRE(::stat(job.key_file("kb").c_str(), &status) == 0);
  CHECK((status.st_mode & 07777U) == 0600U);
  const auto key = content_of(job.key_file("kb"));
  CHECK(key.size() == 65);
  job.trial.done("out J01/1");
  job.trial.done("sign");
  CHECK(content_of(job.key_file("kb")) == key);
  // No line of the logbook and no copy holds the key.
  CHECK(job.trial.done("export").out.find(key.substr(0, 64)) == std::string::npos);
}

TEST_CASE("a key that others may read, or that is none, signs nothing", "[cli]") {
  Job job;
  job.trial.done("sign");
  job.trial.done("out J01/1");
  const auto file = job.key_file("kb");
  SECTION("readable by others") {
    fs::permissions(file, fs::perms::group_read, fs::perm_options::add);
    const auto refused = job.trial.run("sign");
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(),
               ContainsSubstring("others may read it") && ContainsSubstring("chmod 600"));
  }
  SECTION("cut off") {
    std::ofstream(file) << "abc\n";
    const auto refused = job.trial.run("sign");
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(),
               ContainsSubstring("this is no key") && ContainsSubstring("nothing was signed"));
  }
  SECTION("no home folder") {
    job.trial.environment.erase("XDG_DATA_HOME");
    CHECK(job.trial.run("sign").code == 2);
  }
  CHECK(job.verified()["signatures"].size() == 1);
}

TEST_CASE("only what fits is signed, and once", "[cli]") {
  Job job;
  job.trial.done("sign");
  const auto again = job.trial.run("sign");
  CHECK(again.code == 1);
  CHECK_THAT(again.said(), ContainsSubstring("bears a signature of this key already"));
  job.trial.done("out J01/1 --bag A1");
  job.behind_its_back(
      "DROP TRIGGER removal_never_changed; UPDATE removal SET bag = 'B1';"
      "CREATE TRIGGER removal_never_changed BEFORE UPDATE ON removal BEGIN\n"
      "  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');\nEND");
  const auto refused = job.trial.run("sign");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("so it was not signed"));
}

TEST_CASE("a log whose hashes were all computed anew fits no signature", "[cli]") {
  Job job;
  job.trial.done("sign");
  // Another log of the same lines, made by somebody who has the program but not the key: the
  // signature is carried over into it.
  const auto forged = job.trial.folder().file("forged.bolts");
  job.trial.done("start " + forged + " --machine GB-1");
  job.trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 8 --log " + forged);
  {
    SQLite::Database shell(forged, SQLite::OPEN_READWRITE);
    shell.exec("DROP TRIGGER signature_fits_its_line");
    shell.exec("ATTACH '" + job.path + "' AS signed_one");
    shell.exec(
        "INSERT INTO main.signature SELECT (SELECT id FROM main.entry WHERE line = 2), public_key, "
        "by_whom, signed_at, signature FROM signed_one.signature");
  }
  const auto answer = job.trial.run("verify --log " + forged);
  CHECK(answer.code == 1);
  CHECK_THAT(answer.told(), ContainsSubstring("the signature of KB at line 2 does not fit"));
}

TEST_CASE("whatever of a signature is changed, it does not fit", "[cli]") {
  Job job;
  job.trial.done("sign");
  job.behind_its_back("DROP TRIGGER signature_never_changed");
  for (const std::string change :
       {"by_whom = 'MO'", "signed_at = '2026-06-01T07:00:00.001Z'",
        "public_key = printf('%064d', 7)", "signature = printf('%0128d', 7)",
        "signature = substr(signature, 2) || substr(signature, 1, 1)",
        "line_id = (SELECT id FROM entry WHERE line = 1)"}) {
    INFO(change);
    SQLite::Database shell(job.path, SQLite::OPEN_READWRITE);
    shell.exec("CREATE TEMP TABLE before AS SELECT * FROM signature");
    shell.exec("UPDATE signature SET " + change);
    const auto json = job.verified();
    REQUIRE(json["signatures"].size() == 1);
    CHECK(json["signatures"][0]["fits"] == false);
    shell.exec(
        "UPDATE signature SET (line_id, public_key, by_whom, signed_at, signature) = "
        "(SELECT line_id, public_key, by_whom, signed_at, signature FROM before)");
    CHECK(job.verified()["signatures"][0]["fits"] == true);
  }
}

TEST_CASE("a copy as JSON brings its signatures, and is refused with a wrong one", "[cli]") {
  Job job;
  job.trial.done("sign");
  const auto copy = job.trial.folder().file("copy.json");
  const auto made = job.trial.folder().file("made.bolts");
  job.trial.done("export --to " + copy);
  auto text = content_of(copy);
  SECTION("as it is") {
    job.trial.done("import " + copy + " --log " + made);
    CHECK_THAT(job.trial.done("verify --log " + made).told(),
               ContainsSubstring("Signed up to line 2 by KB"));
    job.trial.done("export --to " + copy + "2 --log " + made);
    CHECK(content_of(copy + "2") == text);
  }
  SECTION("with another name on it") {
    const auto by = text.rfind("\"by\":\"KB\"");
    text.replace(by, 9, "\"by\":\"MO\"");
    std::ofstream(copy) << text;
    const auto refused = job.trial.run("import " + copy + " --log " + made);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("the signature of MO at line 2 does not fit"));
    CHECK_FALSE(fs::exists(made));
  }
  SECTION("with all of them gone, and no word of it") {
    const auto at = text.find(",\"signatures\"");
    text.erase(at, text.rfind('}') - at);
    std::ofstream(copy) << text;
    CHECK(job.trial.run("import " + copy + " --log " + made).code == 2);
  }
}

TEST_CASE("the shell changes, removes, replaces and adds no signature", "[cli]") {
  Job job;
  job.trial.done("sign");
  for (const auto* sql : {"UPDATE signature SET by_whom = 'MO'", "DELETE FROM signature"}) {
    INFO(sql);
    CHECK_THROWS_WITH(job.behind_its_back(sql), ContainsSubstring("never"));
  }
  const auto put_in = [](const char* columns) {
    return fmt::format("INSERT OR REPLACE INTO signature SELECT {} FROM signature", columns);
  };
  const auto same = put_in("line_id, public_key, by_whom, signed_at, signature");
  CHECK_THROWS_WITH(job.behind_its_back(same),
                    ContainsSubstring("no such function: signature_fits"));
  // Nor who has the function one that does not fit, or one in the place of what is there.
  SQLite::Database shell(job.path, SQLite::OPEN_READWRITE);
  logbook::add_own_functions(shell);
  CHECK_THROWS_WITH(shell.exec(same), ContainsSubstring("never"));
  for (const auto* columns :
       {"line_id, public_key, 'MO', signed_at, signature",
        "line_id, public_key, by_whom, '2026-06-01T07:00:00.001Z', signature",
        "line_id, printf('%064d', 7), by_whom, signed_at, signature",
        "line_id, public_key, by_whom, '2026-06-01T07:00:00.001Z', printf('%0128d', 7)",
        "(SELECT id FROM entry WHERE line = 1), public_key, by_whom, signed_at, signature",
        "'7fffffff-ffff-7fff-8fff-000000000004', public_key, by_whom, signed_at, signature"}) {
    INFO(columns);
    CHECK_THROWS_WITH(shell.exec(put_in(columns)), ContainsSubstring("fit the line"));
  }
  CHECK(job.verified()["fits"] == true);
}

}  // namespace sign_test
