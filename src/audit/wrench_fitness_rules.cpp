#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "audit/calibrations.h"
#include "audit/flag.h"
#include "audit/rules.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using progress::JointWork;
using progress::Tightened;

struct Touched {
  std::vector<int> tested;
  std::vector<int> tightened;
};

void wrench_found_off(const Case& subject, std::vector<Deviation>& deviations) {
  const Calibrations calibrations(subject.job);
  if (!calibrations.is_any_off()) return;
  for (const auto& joint : subject.survey.joints) {
    const JointWork* work =
        subject.work == nullptr ? nullptr : subject.work->joint(joint.joint->code);
    std::map<std::pair<std::string, record::Day>, std::pair<const record::Wrench*, Touched>>
        by_calibration;
    const auto touched = [&](std::string_view name, const record::Stamp& stamp) -> Touched* {
      const auto* off = calibrations.found_off_after(name, record::local_day(stamp.done_at));
      if (off == nullptr) return nullptr;
      auto& entry = by_calibration[{off->name, *off->calibrated}];
      entry.first = off;
      return &entry.second;
    };
    for (const auto& position : joint.positions) {
      if (const auto* finding = position.finding()) {
        if (auto* by = touched(finding->wrench->name, finding->entry->stamp)) {
          by->tested.push_back(position.position);
        }
      }
      if (work == nullptr) continue;
      if (const auto* entry = work->last_set(position.position)) {
        if (auto* by = touched(entry->content.wrench, entry->stamp)) {
          by->tightened.push_back(position.position);
        }
      }
    }
    for (const auto& [key, suspect] : by_calibration) {
      const auto& [wrench, by] = suspect;
      std::string what;
      if (!by.tested.empty()) what = "tested " + record::write_positions(by.tested);
      if (!by.tightened.empty()) {
        what += (what.empty() ? "tightened " : " and tightened ") +
                record::write_positions(by.tightened);
      }
      deviations.push_back(flag_part(
          kWrenchFoundOff, by.tightened.empty() ? Level::Check : Level::Hold, joint,
          fmt::format("{}:{}", key.first, record::write_day(key.second)),
          fmt::format("{} was found off by {} on {}; since the calibration before it had {}",
                      wrench->name, quantity::write_exact(*wrench->found_off),
                      record::write_day(key.second), what),
          by.tightened.empty() ? "allow for it where a finding lies near a limit; it may have read "
                                 "too high or too low"
                               : "check those fasteners with a wrench in calibration"));
    }
  }
}

// The first pass of the joint that asks for a torque which no wrench here covers.
std::optional<plan::TighteningPass> pass_without_wrench(const finding::JointState& joint,
                                                        const record::LogbookStart& start,
                                                        const plan::WrenchChoice& choice) {
  for (const auto& group : finding::specification_groups(joint)) {
    for (auto& pass : plan::passes_of(joint, group, start).passes) {
      if (pass.aim && !choice.covers(*pass.aim)) return std::move(pass);
    }
  }
  return std::nullopt;
}

void no_wrench(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.job.wrenches.empty()) return;
  const plan::WrenchChoice choice(subject.job, record::local_day(subject.now));
  for (const auto& joint : subject.survey.joints) {
    const auto is_out = [&](const auto& position) {
      return position.removal != nullptr &&
             (subject.work == nullptr ||
              !subject.work->progress().has_final_value(joint.joint->code, position.position));
    };
    if (std::ranges::none_of(joint.positions, is_out)) continue;
    if (const auto pass = pass_without_wrench(joint, subject.job.start, choice)) {
      deviations.push_back(flag_joint(
          kNoWrench, Level::Check, joint, choice.what_is_missing(*pass->aim),
          "get one, or enter it: wrench NAME --range ... --graduation ...; an extension changes "
          "the setting"));
    }
  }
}

using Suspects = std::map<std::string, std::pair<const record::Wrench*, std::vector<int>>>;

// The positions whose last setting meets `is_suspect`, by the wrench, as it was on the day.
template <class IsSuspect>
Suspects suspects(const Case& subject, const JointWork& work, IsSuspect&& is_suspect) {
  Suspects found;
  for (const auto& position : work.state->positions) {
    const auto* entry = work.last_set(position.position);
    if (entry == nullptr) continue;
    const auto day = record::local_day(entry->stamp.done_at);
    const auto* wrench = record::wrench_on(subject.job, entry->content.wrench, day);
    if (wrench == nullptr || !is_suspect(*wrench, *entry, day)) continue;
    auto& of_wrench = found[wrench->name];
    of_wrench.first = wrench;
    of_wrench.second.push_back(position.position);
  }
  return found;
}

void tightened_out_of_range(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    const auto found = suspects(
        subject, work, [](const record::Wrench& wrench, const Tightened& entry, record::Day) {
          return !record::in_range(wrench, {*entry.content.setting, entry.content.unit});
        });
    for (const auto& [name, suspect] : found) {
      const auto& [wrench, positions] = suspect;
      deviations.push_back(flag_part(
          kTightenedOutOfRange, Level::Check, *work.state, name,
          fmt::format("{} tightened {} outside its usable range {}", name,
                      record::write_positions(positions), usable_range_text(*wrench)),
          "its accuracy holds only in that range; check them with a wrench that covers the value"));
    }
  }
}

void tightened_out_of_calibration(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    const auto found = suspects(
        subject, work, [](const record::Wrench& wrench, const Tightened&, record::Day day) {
          return record::is_out_of_calibration(wrench, day);
        });
    for (const auto& [name, suspect] : found) {
      const auto& [wrench, positions] = suspect;
      deviations.push_back(flag_part(
          kTightenedOutOfCalibration, Level::Check, *work.state, name,
          fmt::format("{} was out of calibration on the day it tightened {} ({})", name,
                      record::write_positions(positions), calibration_text(*wrench)),
          "have it calibrated and enter what that finds, or check them with another wrench"));
    }
  }
}

}  // namespace

constinit const Rule kWrenchFoundOff{
    "wrench found off", "what a wrench touched before a calibration found it out of tolerance",
    wrench_found_off, RestsOn{.findings = true, .tightenings = true}};
constinit const Rule kNoWrench{
    "no wrench", "torques that no wrench in the logbook has in its usable range", no_wrench};
constinit const Rule kTightenedOutOfRange{"tightened out of range",
                                          "final values set outside the wrench's usable range",
                                          tightened_out_of_range, RestsOn{.tightenings = true}};
constinit const Rule kTightenedOutOfCalibration{
    "tightened out of calibration", "final values set by a wrench out of calibration on the day",
    tightened_out_of_calibration, RestsOn{.tightenings = true}};

}  // namespace audit
