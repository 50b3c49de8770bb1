#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "record/job.h"
#include "support/postgres_servers.h"
#include "support/trial.h"

// Writes a logbook of this machine with the lines of the job, in their order, so many days after
// the times that they have there.
void write_logbook(const std::string& path, const std::string& machine, const record::Job& job,
                   int days_later = 0);

// The job of one machine of several alike, each found at a torque of its own; the wrench of
// the third was found off since.
record::Job job_of_machine(int number);

// A fleet in a database of its own, loaded and asked by commands.
class FleetTrial {
 public:
  explicit FleetTrial(PostgresServers& servers, std::size_t server = 0);

  // A logbook of this trial, by its name without a folder.
  [[nodiscard]] std::string path(const std::string& name) const {
    return trial.folder().file(name);
  }

  // Loads these logbooks.
  Outcome load(const std::vector<std::string>& names, const std::string& more = "");

  // The rows of the answer as JSON.
  nlohmann::json ask(const std::string& question, const std::string& more = "");

  std::string query(const std::string& sql) const { return PostgresServers::query(address, sql); }

  Trial trial;
  std::string address;
};
