#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

// Two PostgreSQL servers of the tests' own (tests/scripts/postgres_server), started by the first test
// of the process that asks for them and stopped with it, however it ends.
class PostgresServers {
 public:
  // Nothing where the program was built without libpqxx or no PostgreSQL is installed; a warning says
  // so then.
  [[nodiscard]] static PostgresServers* running();

  // A new, empty database there, and its address through the server's socket.
  [[nodiscard]] std::string new_database(std::size_t server = 0);
  // The same database by 127.0.0.1, where the password is asked for.
  [[nodiscard]] static std::string by_loopback(const std::string& address);

  // What psql answers to this, its rows by lines and its columns parted by "|". The test fails at once
  // where the server refuses it.
  [[nodiscard]] static std::string query(const std::string& address, const std::string& sql);

  // All that the server wrote into its log.
  [[nodiscard]] std::string log(std::size_t server = 0) const;

  static constexpr const char* kPassword = "long bolt";

  ~PostgresServers();
  PostgresServers(const PostgresServers&) = delete;
  PostgresServers& operator=(const PostgresServers&) = delete;

 private:
  struct Server {
    std::string socket;
    int port = 0;
    std::string log;
  };
  PostgresServers() = default;
  bool start();

  int input_ = -1;  // of the script, which ends when it is closed
  int process_ = -1;
  std::vector<Server> servers_;
  int databases_ = 0;
};
