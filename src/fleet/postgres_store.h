#pragma once

#include <pqxx/connection>
#include <string>

#include "fleet/store.h"

namespace fleet {

// The fleet through libpqxx.
class PostgresStore final : public Store {
 public:
  // Connects. `version` is that of the program, empty where nothing is loaded.
  PostgresStore(const NamedServer& server, std::string version);

  void make_tables();
  void check_tables();

  [[nodiscard]] bool holds(const std::string& first_id, const std::string& ends) override;
  Loaded load(Source source, const std::function<void(double)>& share_done) override;
  [[nodiscard]] Answer ask(const Asked& asked) override;
  [[nodiscard]] std::vector<std::string> machines(const std::string& named) override;

 private:
  [[nodiscard]] int step();

  std::string version_;
  pqxx::connection connection_;
};

}  // namespace fleet
