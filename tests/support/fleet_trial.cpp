#include "support/fleet_trial.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "logbook/recording.h"
#include "support/job_builder.h"

void write_logbook(const std::string& path, const std::string& machine, const record::Job& job,
                   int days_later) {
  struct Line {
    record::Stamp stamp;
    record::Content content;
  };
  std::vector<Line> lines;
  record::for_each_entry(job, [&](const auto& entry) {
    lines.push_back({entry.stamp, entry.content});
  });
  std::ranges::sort(lines, {}, [](const Line& line) { return line.stamp.line; });
  const auto later = std::chrono::days(days_later);
  const auto first = lines.front().stamp.done_at + later;
  auto start = job.start;
  start.machine = machine;
  const logbook::Writer writer{"KB", lines.front().stamp.device, first, first};
  logbook::start_logbook(path, start, writer);
  auto logbook = logbook::Logbook::open_to_write(path);
  logbook::Recording recording(logbook, writer);
  for (const auto& [stamp, content] : lines) {
    recording.append(content, stamp.by, stamp.done_at + later);
  }
  recording.commit();
}

record::Job job_of_machine(int number) {
  JobBuilder builder;
  builder.wrench();
  builder.last_wrench().serial = "4711";
  builder.joint("J06", 3).specified("J06");
  builder.last_joint().rechecks = {record::read_recheck_interval("7 days")};
  builder.out("J06/1-2").out("J06/3", record::BreakLoose::AlreadyLoose);
  builder.found("J06/1", fmt::format("{}s {}o", 50 + 3 * number, 53 + 3 * number))
      .found("J06/2", "78s 80o");
  builder.tightened("J06/1,2,3", 1, 80, 80).striped("J06/1-3");
  if (number == 3) {
    builder.wrench("TW2", "20..200 N·m", "1 N·m", "2026-09-01");
    builder.last_wrench().serial = "4711";
    builder.last_wrench().found_off = quantity::Percent::of_hundred(9);
  }
  return builder.job();
}

FleetTrial::FleetTrial(PostgresServers& servers, std::size_t server)
    : address(servers.new_database(server, PostgresServers::Made::Fleet)) {
  trial.now = record::read_moment("2026-12-01T08:00:00Z");
}

Outcome FleetTrial::load(const std::vector<std::string>& names, const std::string& more) {
  auto command = "fleet load --to " + address + more;
  for (const auto& name : names) command += ' ' + path(name);
  return trial.run(command);
}

nlohmann::json FleetTrial::ask(const std::string& question, const std::string& more) {
  return trial.done("fleet ask " + question + " --json --from " + address + more).json()["rows"];
}
