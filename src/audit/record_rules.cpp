#include <fmt/format.h>

#include "audit/rules.h"
#include "record/address.h"

namespace audit {
namespace {

constexpr std::size_t kTypedTail = 8;

void stray_entry(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& stray : subject.survey.strays) {
    const std::string address =
        stray.position > 0 ? record::write_address(stray.joint, stray.position) : stray.joint;
    Deviation deviation;
    // The tail of the line's own id, so that it is short enough to type and the same in every copy.
    deviation.id = fmt::format("stray-entry:{}:{}", address,
                               stray.stamp->id.substr(stray.stamp->id.size() - kTypedTail));
    deviation.level = Level::Hold;
    deviation.rule = kStrayEntry.name;
    deviation.joint = stray.joint;
    if (stray.position > 0) deviation.position = stray.position;
    deviation.says = fmt::format(
        "line {} speaks of {}, but that joint, position or wrench is not in the logbook any more",
        stray.stamp->line, address);
    deviation.what_to_do = "enter the joint or wrench again, or strike the line";
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kStrayEntry{
    "stray entry", "lines about a joint, position or wrench that is not in the logbook",
    stray_entry};

}  // namespace audit
