#include <fmt/format.h>

#include <algorithm>

#include "audit/flag.h"
#include "audit/rules.h"
#include "progress/fluid_balance.h"
#include "quantity/volume_text.h"
#include "record/address.h"

namespace audit {
namespace {

bool has_stripe(const JointCase& at) {
  return std::ranges::any_of(at.joint.positions, [&](const auto& position) {
    return at.progress().finish_of(at.joint.joint->code, position.position).drawn != nullptr;
  });
}

// A final stripe says that the joint is done; by then whatever came out of it is back.
void not_back(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr || !has_stripe(at)) return;
  std::vector<int> missing;
  std::size_t out = 0;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr || is_left_alone(at, position.position)) continue;
    ++out;
    if (!at.work->is_back(position.position)) missing.push_back(position.position);
  }
  if (missing.empty()) return;
  auto deviation = flag_joint(
      kNotBack, Level::Hold, at.joint,
      says("{} came out and {} went back in, yet the joint has a final stripe; not back: {}",
           as::count(out), as::count(out - missing.size()), as::numbers(missing)),
      fmt::format("count what is left in the bag; then tighten and record the rest: tighten {}/{}",
                  at.joint.joint->code, record::write_positions(missing)));
  deviation.positions = missing;
  deviations.push_back(std::move(deviation));
}

bool was_worked_on(const JointCase& at) {
  return at.work != nullptr && std::ranges::any_of(at.joint.positions, [&](const auto& position) {
           return at.work->is_back(position.position);
         });
}

void item_count(const JointCase& at, Deviations& deviations) {
  const auto& items = at.whole.lookups->items;
  const auto found = items.find(record::folded_code(at.joint.joint->code));
  if (found == items.end()) return;
  for (const auto& item : found->second) {
    const auto& code = item.item->code;
    const auto counted = says("{} of {} {} came off and {} went back", as::name(code),
                              as::count(item.off), as::name(item.item->what), as::count(item.back));
    if (item.missing() < 0) {
      deviations.push_back(flag_part(kItemCount, Level::Check, at.joint, code, counted,
                                     "count them at the machine and strike the wrong line"));
    } else if (item.missing() > 0 && was_worked_on(at)) {
      deviations.push_back(
          flag_part(kItemCount, Level::Hold, at.joint, code,
                    says("{}, yet {} was tightened, which has to wait for them", counted,
                         as::name(at.joint.joint->code)),
                    "look for them inside before anything is closed; then record what is back"));
    }
  }
}

// The first work that counts at a position of the joint, done while some of the item were off.
const progress::Tightened* closed_over(const JointCase& at, const progress::ItemCount& item,
                                       int position) {
  for (const auto* entry : at.work->done_at(position)) {
    if (record::is_work(entry->content) && item.missing_at(entry->stamp) > 0) return entry;
  }
  return nullptr;
}

// What is back now does not tell that it could be put back: the joint was closed by then. Over,
// once every fastener that was tightened too early has come out again.
void closed_over_items(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& items = at.whole.lookups->items;
  const auto found = items.find(record::folded_code(at.joint.joint->code));
  if (found == items.end()) return;
  for (const auto& item : found->second) {
    if (item.missing() > 0) continue;  // item_count's to tell
    std::vector<int> positions;
    const progress::Tightened* first = nullptr;
    for (const auto& position : at.joint.positions) {
      const auto* entry = closed_over(at, item, position.position);
      if (entry == nullptr) continue;
      positions.push_back(position.position);
      if (first == nullptr || record::is_earlier(entry->stamp, first->stamp)) first = entry;
    }
    if (positions.empty()) continue;
    const auto& code = at.joint.joint->code;
    auto deviation = flag_part(
        kClosedOver, Level::Hold, at.joint, item.item->code,
        says("{} was tightened at {} (line {}) while {} of {} {} were off, and they went back only "
             "later",
             as::name(code), as::numbers(positions), as::line(first->stamp),
             as::count(item.missing_at(first->stamp)), as::count(item.off),
             as::name(item.item->what)),
        fmt::format("open it again, see that they are in their place, and close it anew: out "
                    "{}/{}; where they were in before it was closed, enter their return again with "
                    "its own time: item {} --back N --at ... --replace LINE --why ...",
                    code, record::write_positions(positions), item.item->code));
    deviation.positions = positions;
    deviations.push_back(std::move(deviation));
  }
}

// Too much as well as too little: what went in and what came out are both on record, so that one of
// them is wrong, or somebody knows why.
void fluid_balance(const Case& subject, Deviations& deviations) {
  for (const auto& fluid : progress::fluid_balances(subject.job)) {
    if (!progress::differs(fluid)) continue;
    const auto amount = [](quantity::Volume volume) { return quantity::write_rounded(volume); };
    const bool is_less = fluid.still_to_go_back > fluid.more_than_came_out;
    auto deviation = flag_job(
        kFluidBalance, Level::Check,
        says("{}: {} came out and {} went in, {} {}, beyond {}% of what came out",
             as::name(fluid.fluid), as::name(amount(fluid.sum_drained)),
             as::name(amount(fluid.sum_filled)),
             as::name(amount(is_less ? fluid.still_to_go_back : fluid.more_than_came_out)),
             as::wording(is_less ? "less" : "more"),
             as::wording(fmt::format("{:.0f}", progress::kFluidShare * 100.0))),
        fmt::format("look at the level; where it is right, say why: settle \"{}\" --as use-as-is "
                    "--why ...; where a line is wrong, correct it: fluid --replace LINE --why ...",
                    progress::deviation_of(fluid)));
    deviation.id = progress::deviation_of(fluid);
    deviation.parts.front().id = deviation.id;
    deviation.keeps_unfinished = true;
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kFluidBalance{
    "fluid balance", "fluids of which far more or less went in than came out", fluid_balance};
constinit const Rule kNotBack{"not back",
                              "joints with a final stripe where fewer went back in than came out",
                              not_back, kRestsOn<record::Removal, record::Tightening>};
constinit const Rule kItemCount{
    "item count", "counted items that came off and went back against the joint that waits for them",
    item_count};
constinit const Rule kClosedOver{
    "closed over", "joints that were closed while counted items in front of them were still off",
    closed_over_items, kRestsOn<record::Removal, record::Tightening>};

}  // namespace audit
