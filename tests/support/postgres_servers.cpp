#include "support/postgres_servers.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <fstream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/places.h"

PostgresServers* PostgresServers::running(int count) {
  static std::map<int, std::unique_ptr<PostgresServers>> by_count;
  const auto [found, is_new] = by_count.try_emplace(count);
  auto& servers = found->second;
  if (is_new) {
    servers.reset(new PostgresServers);
    if (!BOLTWITNESS_HAS_LIBPQXX || !servers->start(count)) servers.reset();
  }
  if (!servers) {
    WARN("skipped: " << (BOLTWITNESS_HAS_LIBPQXX ? "no PostgreSQL could be started"
                                                 : "built without libpqxx")
                     << " (on Debian: scripts/setup installs it)");
  }
  return servers.get();
}

bool PostgresServers::start(int count) {
  int typed[2];
  int told[2];
  if (::pipe2(typed, O_CLOEXEC) != 0 || ::pipe2(told, O_CLOEXEC) != 0) {
    throw std::runtime_error("no pipe");
  }
  const auto number = std::to_string(count);
  process_ = ::fork();
  if (process_ < 0) throw std::runtime_error("no process could be started");
  if (process_ == 0) {
    ::dup2(typed[0], STDIN_FILENO);
    ::dup2(told[1], STDOUT_FILENO);
    ::execl(BOLTWITNESS_POSTGRES_SERVER, BOLTWITNESS_POSTGRES_SERVER, number.c_str(), nullptr);
    ::_exit(127);
  }
  ::close(typed[0]);
  ::close(told[1]);
  input_ = typed[1];
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> answer(::fdopen(told[0], "r"), std::fclose);
  char line[4096];
  if (std::fgets(line, sizeof line, answer.get()) == nullptr) return false;
  for (const auto& each : nlohmann::json::parse(line)) {
    servers_.push_back({each["socket"], each["port"], each["log"], false});
  }
  return true;
}

PostgresServers::~PostgresServers() {
  if (process_ < 0) return;
  ::close(input_);
  ::waitpid(process_, nullptr, 0);
}

std::string PostgresServers::new_database(std::size_t server, Made made) {
  auto& place = servers_.at(server);
  const auto address = [&](const std::string& database) {
    return fmt::format("postgresql://fleet@/{}?host={}&port={}", database, place.socket,
                       place.port);
  };
  if (made == Made::Fleet && !place.has_fleet) {
    query(address("postgres"), "CREATE DATABASE made");
    REQUIRE(run_program({"fleet", "load", "--to", address("made")}) == 0);
    place.has_fleet = true;
  }
  const auto name = fmt::format("trial{}", ++databases_);
  query(address("postgres"),
        fmt::format("CREATE DATABASE {}{}", name,
                    made == Made::Fleet ? " TEMPLATE made STRATEGY FILE_COPY" : ""));
  return address(name);
}

std::string PostgresServers::by_loopback(const std::string& address) {
  const auto slash = address.find("@/") + 1;
  const auto port = address.substr(address.find("port=") + 5);
  const auto database = address.substr(slash, address.find('?') - slash);
  return fmt::format("postgresql://fleet@127.0.0.1:{}{}", port, database);
}

std::string PostgresServers::query(const std::string& address, const std::string& sql) {
  const auto command = fmt::format(
      "psql -X -A -t -q -v ON_ERROR_STOP=1 -f - '{}' <<'SQL_ENDS'\n{}\nSQL_ENDS\n", address, sql);
  auto* answer = ::popen(command.c_str(), "r");
  std::string text;
  char buffer[4096];
  for (std::size_t count = 0; (count = std::fread(buffer, 1, sizeof buffer, answer)) > 0;) {
    text.append(buffer, count);
  }
  INFO(sql);
  REQUIRE(::pclose(answer) == 0);
  if (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

std::string PostgresServers::log(std::size_t server) const {
  std::ostringstream text;
  text << std::ifstream(servers_.at(server).log).rdbuf();
  return text.str();
}
