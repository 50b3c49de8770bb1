// A fleet that is spread over two servers answers as one that is not.

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "fleet/question.h"
#include "support/catch.h"
#include "support/fleet_trial.h"

namespace two_servers_test {

namespace {

// The server behind an address, as postgres_fdw is told of it.
std::string host_and_port(const std::string& address) {
  const auto host = address.find("host=") + 5;
  const auto end = address.find("&port=");
  const auto slash = address.find("@/") + 2;
  return fmt::format("host '{}', port '{}', dbname '{}'", address.substr(host, end - host),
                     address.substr(end + 6), address.substr(slash, address.find('?') - slash));
}

}  // namespace

TEST_CASE("shares of the fleet on a second server give the same answers", "[fleet]") {
  auto* servers = PostgresServers::running(2);
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  FleetTrial second(*servers, 1);
  std::vector<std::string> names;
  for (int number = 1; number <= 16; ++number) {
    names.push_back(fmt::format("m{}.bolts", number));
    write_logbook(fleet.path(names.back()), fmt::format("GB-{}", number), job_of_machine(number));
  }
  // Half of them before the shares are moved, half after.
  const std::vector<std::string> half(names.begin(), names.begin() + 8);
  REQUIRE(fleet.load(half).code == 0);
  fleet.query(
      fmt::format("CREATE EXTENSION postgres_fdw; "
                  "CREATE SERVER second FOREIGN DATA WRAPPER postgres_fdw OPTIONS ({}); "
                  "CREATE USER MAPPING FOR fleet SERVER second OPTIONS (user 'fleet', "
                  "password_required 'false'); "
                  "CALL fleet.move_shares('second', 8, 15)",
                  host_and_port(second.address)));
  const auto spread = fleet.load(names, " --json");
  INFO(spread.err);
  REQUIRE(spread.code == 0);
  CHECK(spread.json()["loaded"] == 16);

  FleetTrial whole(*servers);
  std::filesystem::copy(fleet.trial.folder().path(), whole.trial.folder().path(),
                        std::filesystem::copy_options::recursive);
  REQUIRE(whole.load(names).code == 0);
  for (const auto& question : fleet::questions()) {
    const std::string word(question.word);
    INFO(word);
    const auto answer = whole.ask(word);
    CHECK_FALSE(answer.empty());
    CHECK(fleet.ask(word) == answer);
  }
  const auto all = std::stoul(whole.query("SELECT count(*) FROM fleet.line"));
  const auto there = std::stoul(second.query("SELECT count(*) FROM fleet.line"));
  CHECK(std::stoul(fleet.query("SELECT count(*) FROM fleet.line")) == all);
  CHECK(there > 0);
  CHECK(there < all);
  // Loading again changes nothing here either.
  const auto again = fleet.load(names, " --json");
  CHECK(again.code == 0);
  CHECK(again.json()["new_lines"] == 0);
}

}  // namespace two_servers_test
