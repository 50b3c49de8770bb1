#include "progress/finish_commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "record/address.h"
#include "record/recheck_interval.h"

namespace progress {
namespace {

std::string with_counter(std::string command, const record::Joint& joint) {
  if (const auto counter = counter_of(joint)) {
    command += fmt::format(" --counter \"READING {}\"", record::word_of(*counter));
  }
  return command;
}

}  // namespace

std::optional<record::Counter> counter_of(const record::Joint& joint) {
  for (const auto& interval : joint.rechecks) {
    if (const auto* distance = std::get_if<record::RunningAmount>(&interval.after)) {
      return distance->counter;
    }
  }
  return std::nullopt;
}

std::string stripe_command(const record::Joint& joint, const std::vector<int>& positions) {
  return with_counter(
      fmt::format("stripe {} --wiped", record::write_address(joint.code, positions)), joint);
}

std::string look_command(const record::Joint& joint, const std::vector<int>& positions) {
  return with_counter(
      fmt::format("recheck {} aligned", record::write_address(joint.code, positions)), joint);
}

std::string reading_to_fill_in(const record::Joint& joint) {
  const auto counter = counter_of(joint);
  return counter ? fmt::format("; READING is what the machine's counter shows now, in {}",
                               record::word_of(*counter))
                 : std::string();
}

bool lacks_reading(const record::Joint& joint, const std::optional<record::RunningAmount>& noted) {
  const auto counter = counter_of(joint);
  return counter && !(noted && record::on_counter(*noted, *counter));
}

std::string command_to_add_reading(const record::Joint& joint, std::string_view verb,
                                   const std::vector<int>& positions, std::int64_t line) {
  return with_counter(fmt::format("{} {} --replace {} --why \"counter read\"", verb,
                                  record::write_address(joint.code, positions), line),
                      joint);
}

std::string reading_missing(const record::Joint& joint, std::string_view verb,
                            const std::vector<int>& positions, std::int64_t line) {
  return fmt::format(
      "no counter reading, and {} is looked at again by one: without it this does not count for "
      "that look; add it: boltwitness {}{}",
      joint.code, command_to_add_reading(joint, verb, positions, line), reading_to_fill_in(joint));
}

}  // namespace progress
