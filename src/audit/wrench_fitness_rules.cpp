#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/specification_group.h"
#include "plan/tightening_pass.h"
#include "record/address.h"

namespace audit {
namespace {

using progress::Tightened;

struct Touched {
  std::vector<int> tested;
  std::vector<int> tightened;
};

// What was tested and tightened with a wrench before a calibration found it off, by its name and
// the day of that calibration.
using BeforeCalibration =
    std::map<std::pair<std::string, record::Day>, std::pair<const record::Wrench*, Touched>>;

BeforeCalibration touched_before(const JointCase& at) {
  BeforeCalibration by_calibration;
  const auto touched = [&](std::string_view name, const record::Stamp& stamp) -> Touched* {
    const auto* off = at.whole.lookups->calibrations.found_off_after(name, stamp);
    if (off == nullptr) return nullptr;
    auto& entry = by_calibration[{off->name, *off->calibrated}];
    entry.first = off;
    return &entry.second;
  };
  for (const auto& position : at.joint.positions) {
    const auto* finding = position.finding();
    if (finding != nullptr && finding->wrench != nullptr) {
      if (auto* by = touched(finding->wrench->name, finding->entry->stamp)) {
        by->tested.push_back(position.position);
      }
    }
    if (at.work == nullptr) continue;
    if (const auto* entry = at.work->last_set(position.position)) {
      if (auto* by = touched(entry->content.wrench, entry->stamp)) {
        by->tightened.push_back(position.position);
      }
    }
  }
  return by_calibration;
}

Statement what_it_touched(const Touched& by) {
  std::vector<Statement> what;
  if (!by.tested.empty()) what.push_back(says("tested {}", as::numbers(by.tested)));
  if (!by.tightened.empty()) what.push_back(says("tightened {}", as::numbers(by.tightened)));
  return joined(what, " and ");
}

void wrench_found_off(const JointCase& at, Deviations& deviations) {
  if (!at.whole.lookups->calibrations.is_any_off()) return;
  for (const auto& [key, suspect] : touched_before(at)) {
    const auto& [wrench, by] = suspect;
    auto deviation = flag_part(
        kWrenchFoundOff, by.tightened.empty() ? Level::Check : Level::Hold, at.joint,
        fmt::format("{}:{}", key.first, record::write_day(key.second)),
        says("{} was found off by {} on {}; since the calibration before it had {}",
             as::name(wrench->name), as::percent(*wrench->found_off), as::day(key.second),
             what_it_touched(by)),
        by.tightened.empty() ? "allow for it where a finding lies near a limit; it may have read "
                               "too high or too low"
                             : "check those fasteners with a wrench in calibration");
    std::ranges::set_union(by.tested, by.tightened, std::back_inserter(deviation.positions));
    deviations.push_back(std::move(deviation));
  }
}

// Something of the joint is out and not back at its final value, so that the plan is of use.
bool is_to_be_tightened(const JointCase& at) {
  if (at.whole.job.wrenches.empty()) return false;
  return std::ranges::any_of(at.joint.positions, [&](const auto& position) {
    return position.removal != nullptr &&
           (at.whole.work == nullptr ||
            !at.progress().has_final_value(at.joint.joint->code, position.position));
  });
}

// What the passes of the joint ask for, each once.
std::vector<plan::Aim> aims_of(const JointCase& at) {
  std::vector<plan::Aim> aims;
  for (const auto& group : finding::specification_groups(at.joint)) {
    for (const auto& pass : plan::passes_of(at.joint, group, at.whole.job.start).passes) {
      if (!pass.aim || std::ranges::find(aims, *pass.aim) != aims.end()) continue;
      aims.push_back(*pass.aim);
    }
  }
  return aims;
}

Statement what_is_missing(const JointCase& at, const plan::Aim& aim) {
  return {at.whole.lookups->wrench_choice.what_is_missing(aim),
          as::torque(aim.torque, at.unit()).figures};
}

void no_wrench(const JointCase& at, Deviations& deviations) {
  if (!is_to_be_tightened(at)) return;
  std::vector<Statement> missing;
  for (const auto& aim : aims_of(at)) {
    if (!at.whole.lookups->wrench_choice.covers(aim)) missing.push_back(what_is_missing(at, aim));
  }
  if (missing.empty()) return;
  auto all = joined(missing, "; ");
  all.old_text = missing.front().text;  // of old it named the first alone
  deviations.push_back(
      flag_joint(kNoWrench, Level::Check, at.joint, std::move(all),
                 "get one, or enter it: wrench NAME --range ... --graduation ...; an extension "
                 "changes the setting"));
}

// The aims that a wrench uses up too much of, each once.
class CoarseAims {
 public:
  explicit CoarseAims(const JointCase& at) : at_(at) {}

  void add(const plan::Aim& aim, const plan::WrenchSetting& setting) {
    if (!plan::uses_up_tolerance(setting)) return;
    Statement coarse{plan::tolerance_used_in_words(aim, setting, at_.unit()),
                     as::torque(aim.torque, at_.unit()).figures +
                         as::name(setting.wrench->name).figures +
                         as::torque(setting.may_be_off, at_.unit()).figures};
    if (std::ranges::find(told_, coarse.figures, &Statement::figures) != told_.end()) return;
    told_.push_back(std::move(coarse));
  }
  [[nodiscard]] const std::vector<Statement>& told() const { return told_; }

 private:
  const JointCase& at_;
  std::vector<Statement> told_;
};

// What was done, with the wrenches that did it.
void add_used(const JointCase& at, CoarseAims& coarse) {
  if (at.work == nullptr) return;
  for (const auto& position : at.joint.positions) {
    for (const auto* step : at.progress().steps_of(at.joint.joint->code, position.position)) {
      const auto& aim = step->planned().pass.aim;
      if (!aim || step->entry == nullptr || step->stands != progress::Step::Stands::Done) continue;
      const auto& done = step->entry->content;
      const auto* wrench = record::wrench_on(at.whole.job, done.wrench,
                                             record::local_day(step->entry->stamp.done_at));
      if (wrench == nullptr || !done.setting || done.unit != wrench->scale.unit) continue;
      coarse.add(*aim, plan::set_on(*wrench, *done.setting, *aim, done.adapter.torque_ratio));
    }
  }
}

// Of what was tightened the wrench that did it is looked at, of the rest the best there is.
void coarse_wrench(const JointCase& at, Deviations& deviations) {
  CoarseAims coarse(at);
  const bool is_open = is_to_be_tightened(at);
  if (is_open) {
    for (const auto& aim : aims_of(at)) {
      if (const auto best = at.whole.lookups->wrench_choice.choose(aim, nullptr)) {
        coarse.add(aim, *best);
      }
    }
  }
  add_used(at, coarse);
  if (coarse.told().empty()) return;
  deviations.push_back(flag_joint(
      kCoarseWrench, Level::Check, at.joint, joined(coarse.told(), "; "),
      is_open ? "get one that is off by less, or enter the deviation that its certificate states: "
                "wrench NAME --accuracy ..."
              : "check what it tightened with one that is off by less, or enter the deviation that "
                "its certificate states: wrench NAME --accuracy ..."));
}

using Suspects = std::map<std::string, std::pair<const record::Wrench*, std::vector<int>>>;

// The positions whose last setting meets `is_suspect`, by the wrench, as it was on the day.
template <class IsSuspect>
Suspects suspects(const JointCase& at, IsSuspect&& is_suspect) {
  Suspects found;
  if (at.work == nullptr) return found;
  for (const auto& position : at.joint.positions) {
    const auto* entry = at.work->last_set(position.position);
    if (entry == nullptr) continue;
    const auto day = record::local_day(entry->stamp.done_at);
    const auto* wrench = record::wrench_on(at.whole.job, entry->content.wrench, day);
    if (wrench == nullptr || !is_suspect(*wrench, *entry, day)) continue;
    auto& of_wrench = found[wrench->name];
    of_wrench.first = wrench;
    of_wrench.second.push_back(position.position);
  }
  return found;
}

Deviation flag_tightened(const Rule& rule, Level level, const JointCase& at,
                         const std::string& name, const std::vector<int>& positions, Statement says,
                         std::string what_to_do) {
  auto deviation = flag_part(rule, level, at.joint, name, std::move(says), std::move(what_to_do));
  deviation.positions = positions;
  return deviation;
}

// Set on a scale in another unit, or beyond an end of it, where nothing can be set.
bool is_off_scale(const record::Wrench& wrench, const Tightened& entry) {
  return entry.content.unit != wrench.scale.unit ||
         !record::is_on_scale(wrench, *entry.content.setting);
}

// The settings of these positions, each once.
Statement settings_of(const JointCase& at, const std::vector<int>& positions) {
  std::vector<quantity::StatedTorque> settings;
  std::vector<Statement> texts;
  for (const int position : positions) {
    const auto& tightening = at.work->last_set(position)->content;
    const quantity::StatedTorque stated{*tightening.setting, tightening.unit};
    if (std::ranges::find(settings, stated) != settings.end()) continue;
    settings.push_back(stated);
    texts.push_back(as::torque(stated));
  }
  return joined(texts, ", ");
}

void tightening_scale(const JointCase& at, Deviations& deviations) {
  const auto found = suspects(at, [](const record::Wrench& wrench, const Tightened& entry,
                                     record::Day) { return is_off_scale(wrench, entry); });
  for (const auto& [name, suspect] : found) {
    const auto& [wrench, positions] = suspect;
    deviations.push_back(flag_tightened(
        kTighteningScale, Level::Hold, at, name, positions,
        says("{} has the scale {}, and {} was set to {}, which is not on it", as::name(name),
             as::name(record::scale_text(*wrench)), as::numbers(positions),
             settings_of(at, positions)),
        "find out on which scale it was set; correct the wrench, or strike those lines and enter "
        "what was set, and tighten again where that is not the value asked for"));
  }
}

void tightened_out_of_range(const JointCase& at, Deviations& deviations) {
  const auto found =
      suspects(at, [](const record::Wrench& wrench, const Tightened& entry, record::Day) {
        return !is_off_scale(wrench, entry) && !record::in_range(wrench, *entry.content.setting);
      });
  for (const auto& [name, suspect] : found) {
    const auto& [wrench, positions] = suspect;
    deviations.push_back(flag_tightened(
        kTightenedOutOfRange, Level::Check, at, name, positions,
        says("{} tightened {} outside its usable range {}", as::name(name), as::numbers(positions),
             usable_range(*wrench)),
        "its accuracy holds only in that range; check them with a wrench that covers the value"));
    deviations.back().keeps_unfinished = at.joint.joint->critical;
  }
}

// Nobody knows what it set, as little as of a wrench that was struck: a hold like one that was
// found off, until a calibration tells. One that follows and finds it good tells that the values
// stand; one that finds it off is wrench_found_off's to tell. Where no calibration is on record at
// all, it may only not have been entered: a check, which a critical joint is not finished before.
void tightened_out_of_calibration(const JointCase& at, Deviations& deviations) {
  const auto found =
      suspects(at, [&](const record::Wrench& wrench, const Tightened&, record::Day day) {
        return record::calibration_on(wrench, day) != record::Calibration::Valid &&
               at.whole.lookups->calibrations.after(wrench.name, day) == nullptr;
      });
  for (const auto& [name, suspect] : found) {
    const auto& [wrench, positions] = suspect;
    if (!wrench->calibrated) {
      deviations.push_back(flag_tightened(
          kTightenedOutOfCalibration, Level::Check, at, name, positions,
          says("{} tightened {} and no calibration of it is on record", as::name(name),
               as::numbers(positions)),
          fmt::format("enter its calibration: wrench {} --calibrated DAY; where it has none, have "
                      "it calibrated, or check them with another wrench",
                      name)));
      deviations.back().keeps_unfinished = at.joint.joint->critical;
      continue;
    }
    deviations.push_back(flag_tightened(
        kTightenedOutOfCalibration, Level::Hold, at, name, positions,
        says("{} was out of calibration on the day it tightened {} ({})", as::name(name),
             as::numbers(positions), calibration(*wrench)),
        "have it calibrated and enter what that finds, or check them with another wrench"));
  }
}

}  // namespace

constinit const Rule kWrenchFoundOff{
    "wrench found off", "what a wrench touched before a calibration found it out of tolerance",
    wrench_found_off, kRestsOn<record::Measured, record::Tightening>};
constinit const Rule kNoWrench{
    "no wrench", "torques that no wrench in the logbook has in its usable range", no_wrench};
constinit const Rule kCoarseWrench{
    "coarse wrench",
    "torques for which the wrench used, else the best, uses up two thirds of the tolerance",
    coarse_wrench};
constinit const Rule kTighteningScale{"tightening scale",
                                      "final values set to what is not on the wrench's scale",
                                      tightening_scale, kRestsOn<record::Tightening>};
constinit const Rule kTightenedOutOfRange{"tightened out of range",
                                          "final values set outside the wrench's usable range",
                                          tightened_out_of_range, kRestsOn<record::Tightening>};
constinit const Rule kTightenedOutOfCalibration{
    "tightened out of calibration",
    "final values set by a wrench out of calibration on the day, or of which none is on record",
    tightened_out_of_calibration, kRestsOn<record::Tightening>};

}  // namespace audit
