#include "words/wrench_wanted.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <sstream>

#include "finding/not_to_be_tested.h"
#include "finding/position_search.h"
#include "quantity/stated_torque.h"
#include "record/address.h"
#include "words/pass_text.h"
#include "words/taking_apart.h"

namespace words {
namespace {

using progress::Reassembly;
using progress::Step;

// "tighten J06/1-4 --pass 2", parted.
struct AtFasteners {
  std::string verb;
  record::Address address;
  std::optional<int> pass;
};

std::optional<AtFasteners> read_command(const std::string& command) {
  std::istringstream words(command);
  std::string verb;
  std::string address;
  words >> verb >> address;
  if ((verb != "bench" && verb != "tighten") || address.empty()) return std::nullopt;
  AtFasteners read{std::move(verb), record::read_address(address), std::nullopt};
  for (std::string word; words >> word;) {
    // A look by a second person turns nothing; what corrects a line touches paper alone.
    if (word == "--check" || word == "--replace" || word == "--seen") return std::nullopt;
    if (word != "--pass" || !(words >> word)) continue;
    int number = 0;
    std::from_chars(word.data(), word.data() + word.size(), number);
    read.pass = number;
  }
  return read;
}

const Step* step_meant(const AtFasteners& command, const Reassembly& reassembly) {
  const auto& progress = reassembly.progress;
  const auto& [joint, positions, in_order] = command.address;
  if (positions.empty()) return progress.next(joint);
  if (command.pass) return progress.step(joint, *command.pass, positions.front());
  const auto steps = progress.steps_of(joint, positions.front());
  const auto open = std::ranges::find(steps, Step::Stands::Open, &Step::stands);
  return open == steps.end() ? nullptr : *open;
}

// Of the position that is tested first; empty where none may be.
std::string wrench_at_bench(const AtFasteners& command, const Reassembly& reassembly,
                            record::Day day) {
  const auto* joint = finding::joint_in(reassembly.survey, command.address.joint);
  if (joint == nullptr) return {};
  auto positions = command.address.positions;
  if (positions.empty()) positions = TakingApart(reassembly).still_in(*joint);
  const auto tested = std::ranges::find_if(
      positions, [&](int position) { return finding::not_to_be_tested(*joint, position).empty(); });
  if (tested == positions.end()) return {};
  if (reassembly.job.wrenches.empty()) return "none is entered yet (boltwitness wrench --help)";
  const auto fit = wrenches_for_test(reassembly.job, *joint, *tested, day);
  if (!fit.empty()) return fmt::format("{}", fmt::join(fit, " or "));
  const auto range = finding::searched_range(*joint, *tested);
  return range ? fmt::format("none in calibration covers {} to {}",
                             quantity::write_rounded(range->low, joint->unit),
                             quantity::write_rounded(range->high, joint->unit))
               : std::string("none here is in calibration");
}

}  // namespace

std::vector<std::string_view> wrenches_for_test(const record::Job& job,
                                                const finding::JointState& joint, int position,
                                                record::Day day) {
  const auto range = finding::searched_range(joint, position);
  std::vector<std::string_view> fit;
  for (const auto name : record::wrench_names(job)) {
    const auto* wrench = record::wrench_on(job, name, day);
    if (wrench == nullptr || record::is_out_of_calibration(*wrench, day)) continue;
    if (!range || finding::covers(*wrench, *range)) fit.push_back(name);
  }
  return fit;
}

std::string wrench_for(const std::string& command, const Reassembly& reassembly, record::Day day) {
  const auto read = read_command(command);
  if (!read) return {};
  if (read->verb == "bench") return wrench_at_bench(*read, reassembly, day);
  const auto* step = step_meant(*read, reassembly);
  if (step == nullptr) return {};
  const auto& planned = step->planned();
  if (planned.setting) return setting_text(planned);
  const auto target = target_text(planned, step->joint->state->unit);
  return planned.pass.aim ? "none here can do " + target : "none, " + target;
}

}  // namespace words
