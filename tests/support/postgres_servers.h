#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

// PostgreSQL servers of the tests' own (tests/scripts/postgres_server), started by the first test
// of the process that asks for them and stopped with it, however it ends.
class PostgresServers {
 public:
  // So many; whoever asks for as many again is given the same. Nothing where the program was built
  // without libpqxx or no PostgreSQL is installed; a warning says so then.
  [[nodiscard]] static PostgresServers* running(int count = 1);

  // A new database there, empty or as a fleet without a logbook, and its address through the
  // server's socket.
  enum class Made { Empty, Fleet };
  [[nodiscard]] std::string new_database(std::size_t server = 0, Made made = Made::Empty);
  // The same database by 127.0.0.1, where the password is asked for.
  [[nodiscard]] static std::string by_loopback(const std::string& address);

  // What psql answers to this, its rows by lines and its columns parted by "|". The test fails at
  // once where the server refuses it.
  static std::string query(const std::string& address, const std::string& sql);

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
    bool has_fleet = false;  // a database that others are made like
  };
  PostgresServers() = default;
  bool start(int count);

  int input_ = -1;  // of the script, which ends when it is closed
  int process_ = -1;
  std::vector<Server> servers_;
  int databases_ = 0;
};
