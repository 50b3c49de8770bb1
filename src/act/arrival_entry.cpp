#include "act/arrival_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "failure/failure.h"
#include "words/line_text.h"

namespace act {
namespace {

using plan::Renewing;

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
                                std::vector<std::string>& remarks) {
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
    remarks.push_back(fmt::format("{}: not on the list of what is to be renewed; recorded as it is",
                                  record::write_address(joint.code, not_asked_for)));
  }
  return {joint.code, positions};
}

}  // namespace

bool is_at(const Renewing& renewing, const record::Address& address) {
  return record::same_code(renewing.joint->joint->code, address.joint) &&
         (address.positions.empty() ||
          std::ranges::binary_search(address.positions, renewing.position));
}

Done record_arrival(logbook::Logbook& logbook, const logbook::Writer& writer,
                    const ArrivalWords& words) {
  Amendment amendment(logbook, writer, words.correction);
  if (amendment.before<record::Renewal>() != nullptr) KeptWords(words.correction).check();
  amendment.strike_replaced({"renewal"});
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  auto list = plan::renewal_list(job, survey);
  Done done;
  std::vector<record::Renewal> arrivals;
  if (words.address.empty()) {
    arrivals = all_to_come(list);
  } else {
    const auto address = record::read_address(words.address);
    const auto joint = joint_or_refuse(logbook, address.joint).content;
    std::erase_if(list, [&](const Renewing& renewing) { return !is_at(renewing, address); });
    arrivals = address.positions.empty()
                   ? all_to_come(list)
                   : std::vector{named_positions(list, joint, address.positions, done.remarks)};
  }
  if (arrivals.empty()) {
    throw failure::Refusal(fmt::format("nothing is to come{}; \"boltwitness renew\" shows the list",
                                       words.address.empty() ? "" : " for " + words.address));
  }
  for (const auto& arrival : arrivals) {
    done.lines.push_back({amendment.append(arrival), words::line_text(arrival)});
  }
  amendment.commit();
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
