// What the program keeps of its own, in the folders of the person: the id of the machine, the key.

#include <sys/stat.h>

#include <filesystem>
#include <fstream>

#include "failure/failure.h"
#include "support/catch.h"
#include "support/temporary_folder.h"
#include "terminal/device.h"
#include "terminal/key_file.h"

namespace own_folder_test {

namespace fs = std::filesystem;
using terminal::device_id;

TEST_CASE("a machine keeps its id, and has the same where it cannot", "[program]") {
  const TemporaryFolder folder;
  const auto kept = device_id(folder.path() / "state");
  CHECK(kept.size() == 36);
  CHECK(device_id(folder.path() / "state") == kept);
  CHECK(std::distance(fs::directory_iterator(folder.path() / "state"), {}) == 1);
  const auto computed = device_id("/proc/nowhere");
  CHECK(device_id("/proc/nowhere") == computed);
  CHECK(computed != kept);
  // Version 8 and the variant of RFC 9562.
  CHECK(computed.size() == 36);
  CHECK(computed[14] == '8');
  CHECK(computed[19] == '8');
}

TEST_CASE("an id that a power cut left empty is made anew once", "[program]") {
  const TemporaryFolder folder;
  std::ofstream(folder.file("device")) << "";
  const auto made = device_id(folder.path());
  CHECK(device_id(folder.path()) == made);
}

TEST_CASE("what lies where a machine keeps its id, and is no short file, holds nobody up",
          "[program]") {
  const TemporaryFolder folder;
  const auto file = folder.file("device");
  SECTION("a pipe that nobody writes to") { REQUIRE(::mkfifo(file.c_str(), 0600) == 0); }
  SECTION("a device without end") { fs::create_symlink("/dev/zero", file); }
  SECTION("a large file") { std::ofstream(file) << std::string(1U << 20U, '0'); }
  // Another takes its place, and stays.
  const auto made = device_id(folder.path());
  CHECK(made.size() == 36);
  CHECK(device_id(folder.path()) == made);
  CHECK(fs::is_regular_file(fs::symlink_status(file)));
}

TEST_CASE("a key is made whole, for nobody else to read", "[program]") {
  const TemporaryFolder folder;
  const auto made = terminal::persons_key(folder.path() / "own");
  CHECK(made.is_new);
  CHECK(fs::status(made.file).permissions() == (fs::perms::owner_read | fs::perms::owner_write));
  const auto again = terminal::persons_key(folder.path() / "own");
  CHECK_FALSE(again.is_new);
  CHECK(again.key.seed() == made.key.seed());
  CHECK(std::distance(fs::directory_iterator(folder.path() / "own"), {}) == 1);
  CHECK_THROWS_AS(terminal::persons_key("/proc/nowhere"), failure::OutputLost);
}

}  // namespace own_folder_test
