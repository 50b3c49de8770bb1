#include "cli/renew.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "plan/renewal_list.h"
#include "record/address.h"
#include "screen/renewal_answer.h"
#include "terminal/session.h"
#include "words/line_text.h"
#include "words/written_line.h"

namespace cli {
namespace {

using plan::Renewing;

bool is_at(const Renewing& renewing, const record::Address& address) {
  return record::same_code(renewing.joint->joint->code, address.joint) &&
         (address.positions.empty() ||
          std::ranges::binary_search(address.positions, renewing.position));
}

// Everything on the list that has to come and has not, one line a joint.
std::vector<record::Renewal> all_to_come(const std::vector<Renewing>& list) {
  std::vector<record::Renewal> arrivals;
  for (const auto& renewing : list) {
    if (renewing.has_arrived || !renewing.is_certain()) continue;
    const auto& code = renewing.joint->joint->code;
    if (arrivals.empty() || arrivals.back().joint != code) arrivals.push_back({code, {}});
    arrivals.back().positions.push_back(renewing.position);
  }
  return arrivals;
}

// The positions that were named. Refusal where one has its new fastener already.
record::Renewal named_positions(const std::vector<Renewing>& list, const record::Joint& joint,
                                const std::vector<int>& positions,
                                const terminal::Session& session) {
  check_positions(joint, positions);
  std::vector<int> not_asked_for;
  for (const int position : positions) {
    const auto found = std::ranges::find(list, position, &Renewing::position);
    if (found == list.end()) {
      not_asked_for.push_back(position);
    } else if (found->has_arrived) {
      throw failure::Refusal(fmt::format("the new one for {} has arrived already",
                                         record::write_address(joint.code, position)));
    }
  }
  if (!not_asked_for.empty()) {
    session.remark(fmt::format("{}: not on the list of what is to be renewed; recorded as it is",
                               record::write_address(joint.code, not_asked_for)));
  }
  return {joint.code, positions};
}

int record_arrival(const RenewOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"renewal"});
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  auto list = plan::renewal_list(job, survey);
  std::vector<record::Renewal> arrivals;
  if (options.address.empty()) {
    arrivals = all_to_come(list);
  } else {
    const auto address = record::read_address(options.address);
    const auto joint = joint_or_refuse(logbook, address.joint).content;
    std::erase_if(list, [&](const Renewing& renewing) { return !is_at(renewing, address); });
    arrivals = address.positions.empty()
                   ? all_to_come(list)
                   : std::vector{named_positions(list, joint, address.positions, session)};
  }
  if (arrivals.empty()) {
    throw failure::Refusal(fmt::format("nothing is to come{}; \"boltwitness renew\" shows the list",
                                       options.address.empty() ? "" : " for " + options.address));
  }
  std::vector<words::WrittenLine> written;
  written.reserve(arrivals.size());
  for (const auto& arrival : arrivals) {
    written.push_back({recording.append(arrival), words::line_text(arrival)});
  }
  recording.commit();
  session.recorded(written);
  return failure::kDone;
}

int tell_list(const RenewOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  auto list = plan::renewal_list(job, survey);
  if (!options.address.empty()) {
    const auto address = record::read_address(options.address);
    (void)joint_or_refuse(logbook, address.joint);
    std::erase_if(list, [&](const Renewing& renewing) { return !is_at(renewing, address); });
  }
  session.out() << (session.json() ? screen::renewals_json(list)
                                   : screen::renewals_text(list, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_renew(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<RenewOptions>();
  auto* command = app.add_subcommand(
      "renew", "What has to be bought new, by size, length and grade; and what has arrived");
  command
      ->add_option("ADDRESS", options->address,
                   "Only these, such as J10/1-4, or J10 for all of its list")
      ->option_text("JOINT/POSITIONS");
  command->add_flag("--arrived", options->arrived, "New ones for these have arrived and lie ready");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_renew(*options, session);
    };
  });
}

int run_renew(const RenewOptions& options, const terminal::Session& session) {
  if (options.arrived) return record_arrival(options, session);
  if (!options.correction.replaced_line.empty()) {
    throw failure::UsageError("what takes its place is an arrival: add --arrived");
  }
  return tell_list(options, session);
}

}  // namespace cli
