#include "faults.h"

#include <algorithm>
#include <cmath>

#include "record/address.h"
#include "support/reassembled.h"

namespace {

using record::BreakLoose;
using record::Job;
using Planted = std::optional<Expected>;

record::Moment after(const record::Stamp& stamp) {
  return stamp.done_at + std::chrono::seconds(30);
}

record::Specified& specification_of(Job& job, const std::string& joint) {
  return std::ranges::find_if(job.specifications,
                              [&](const auto& entry) { return entry.content.joint == joint; })
      ->content;
}

record::Joint& joint_named(Job& job, const std::string& code) {
  return std::ranges::find_if(job.joints,
                              [&](const auto& entry) { return entry.content.code == code; })
      ->content;
}

bool has_angle(Job& job, const std::string& joint) {
  return record::has_angle_step(specification_of(job, joint).procedure);
}

// A random finding of a joint whose specification ends in a torque, or in an angle.
record::Entry<record::Measured>* finding_with(Job& job, Dice& dice, bool angle) {
  std::vector<record::Entry<record::Measured>*> fitting;
  for (auto& entry : job.findings) {
    if (has_angle(job, entry.content.joint) == angle) fitting.push_back(&entry);
  }
  return fitting.empty() ? nullptr : dice.one_of(fitting);
}

void scale(record::Measured& measured, double factor) {
  for (auto& reading : measured.readings) reading.setting *= factor;
}

Planted about(const record::Measured& measured) {
  return Expected{measured.joint, measured.position};
}

// A finding of a torque joint at this many times what it was.
auto found_at(double least, double most) {
  return [=](Job& job, Dice& dice) -> Planted {
    auto* entry = finding_with(job, dice, false);
    if (entry == nullptr) return std::nullopt;
    scale(entry->content, dice.real(least, most));
    return about(entry->content);
  };
}

// A random position of a random joint, taken from its removal into one of its own.
struct Apart {
  record::Removal* removal;
  int position;
};
std::optional<Apart> own_removal(Job& job, Dice& dice) {
  auto& whole = dice.one_of(job.removals);
  if (whole.content.positions.size() < 2) return std::nullopt;
  const int position = dice.one_of(whole.content.positions);
  std::erase(whole.content.positions, position);
  auto alone = whole.content;
  alone.positions = {position};
  job.removals.push_back({next_stamp(job, whole.stamp.done_at), alone});
  return Apart{&job.removals.back().content, position};
}

auto removed_as(std::function<void(record::Removal&)> change) {
  return [change = std::move(change)](Job& job, Dice& dice) -> Planted {
    const auto apart = own_removal(job, dice);
    if (!apart) return std::nullopt;
    change(*apart->removal);
    return Expected{apart->removal->joint, apart->position};
  };
}

// A random tightening that `fits`.
template <class Fits>
record::Entry<record::Tightening>* tightening_with(Job& job, Dice& dice, Fits&& fits) {
  std::vector<record::Entry<record::Tightening>*> fitting;
  for (auto& entry : job.tightenings) {
    if (!entry.content.second_check && fits(entry)) fitting.push_back(&entry);
  }
  return fitting.empty() ? nullptr : dice.one_of(fitting);
}

int last_pass(const Job& job, const std::string& joint) {
  int last = 0;
  for (const auto& entry : job.tightenings) {
    if (entry.content.joint == joint) last = std::max(last, entry.content.pass);
  }
  return last;
}

bool sets_final_value(const Job& job, const record::Entry<record::Tightening>& entry) {
  return entry.content.setting && entry.content.pass == last_pass(job, entry.content.joint);
}

Planted about(const record::Tightening& tightening) {
  return Expected{tightening.joint, tightening.positions.front()};
}
Planted about_joint(const record::Tightening& tightening) { return Expected{tightening.joint}; }

// The specification of a random joint, changed or joined by another.
auto specified_as(std::function<void(Job&, record::Specified&)> change) {
  return [change = std::move(change)](Job& job, Dice& dice) -> Planted {
    auto& specified = dice.one_of(job.specifications).content;
    const auto joint = specified.joint;
    change(job, specified);
    return Expected{joint};
  };
}

void retype(record::Specified& specified, const std::string& text) {
  specified.typed = text;
  specified.procedure = record::read_specification(text);
}

void add_specification(Job& job, record::Specified specified) {
  job.specifications.push_back(
      {next_stamp(job, after(job.specifications.back().stamp)), std::move(specified)});
}

std::vector<Fault> found_faults() {
  const auto apart = Stage::TakenApart;
  return {
      {"found far too low", "found low", apart, found_at(0.50, 0.70)},
      {"found far too high", "found high", apart, found_at(1.30, 1.60)},
      {"found at the edge of the tolerance", "found undecided", apart, found_at(0.89, 0.90)},
      {"number read in ft·lbf", "unit slip", apart, found_at(0.7376, 0.7376)},
      {"bolt tightened until it yields", "overstretched", apart, found_at(3.0, 4.0)},
      {"one apart in a joint without a torque to compare", "outlier", apart,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = finding_with(job, dice, true);
         if (entry == nullptr) return std::nullopt;
         const auto siblings = std::ranges::count_if(job.findings, [&](const auto& other) {
           return other.content.joint == entry->content.joint;
         });
         if (siblings < 3) return std::nullopt;
         scale(entry->content, dice.yes(0.5) ? 0.6 : 1.5);
         return about(entry->content);
       }},
      {"whole joint relaxed", "whole joint off", apart,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = finding_with(job, dice, false);
         if (entry == nullptr) return std::nullopt;
         const auto joint = entry->content.joint;
         const double factor = dice.real(0.55, 0.70);
         int changed = 0;
         for (auto& finding : job.findings) {
           if (finding.content.joint != joint) continue;
           scale(finding.content, factor);
           ++changed;
         }
         if (changed < 3) return std::nullopt;
         return Expected{joint};
       }},
      {"no mark was drawn", "found not comparable", apart,
       [](Job& job, Dice& dice) -> Planted {
         const auto* entry = finding_with(job, dice, false);
         if (entry == nullptr) return std::nullopt;
         const auto measured = entry->content;
         for (auto& removal : job.removals) {
           if (removal.content.joint == measured.joint) removal.content.marked = false;
         }
         return about(measured);
       }},
      {"tested twice", "repeated finding", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         const auto measured = dice.one_of(job.findings).content;
         job.findings.push_back({next_stamp(job, after(job.findings.back().stamp)), measured});
         return about(measured);
       }},
  };
}

std::vector<Fault> specification_faults() {
  const auto apart = Stage::TakenApart;
  return {
      {"specification never entered", "no specification", apart,
       [](Job& job, Dice& dice) -> Planted {
         const auto at = dice.whole(0, static_cast<int>(job.specifications.size()) - 1);
         const auto joint = job.specifications[static_cast<std::size_t>(at)].content.joint;
         job.specifications.erase(job.specifications.begin() + at);
         return Expected{joint};
       }},
      {"tightened against no specification", "no specification", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto at = dice.whole(0, static_cast<int>(job.specifications.size()) - 1);
         const auto joint = job.specifications[static_cast<std::size_t>(at)].content.joint;
         job.specifications.erase(job.specifications.begin() + at);
         std::erase_if(job.findings,
                       [&](const auto& entry) { return entry.content.joint == joint; });
         return Expected{joint};
       }},
      {"specification without a source", "no source", apart,
       specified_as([](Job&, record::Specified& specified) { specified.source.clear(); })},
      {"a bulletin gives another torque", "sources disagree", apart,
       specified_as([](Job& job, record::Specified& specified) {
         auto other = specified;
         retype(other, "33 N·m");
         other.source = "Bulletin 7";
         add_specification(job, other);
       })},
      {"a bulletin gives another condition", "condition mismatch", apart,
       specified_as([](Job& job, record::Specified& specified) {
         auto other = specified;
         other.condition = fastener::Condition::Threadlocker;
         other.source = "Bulletin 7";
         add_specification(job, other);
       })},
      {"torque of another bolt copied", "implausible", apart,
       specified_as([](Job&, record::Specified& specified) { retype(specified, "800 N·m"); })},
      {"a turn and a half of thread in light metal", "thread strips", apart,
       specified_as([](Job& job, record::Specified& specified) {
         auto& joint = joint_named(job, specified.joint);
         joint.into = "EN AC-46000";
         joint.engaged = quantity::Length::millimetres(2.0);
       })},
      {"plain head on a soft seat", "head presses in", apart,
       specified_as([](Job& job, record::Specified& specified) {
         joint_named(job, specified.joint).seat = "GK-AlSi9Cu3";
       })},
  };
}

std::vector<Fault> fastener_faults() {
  const auto apart = Stage::TakenApart;
  return {
      {"one not recorded as out", "count out", apart,
       [](Job& job, Dice& dice) -> Planted {
         auto& removal = dice.one_of(job.removals).content;
         removal.positions.erase(removal.positions.begin() +
                                 dice.whole(0, static_cast<int>(removal.positions.size()) - 1));
         return Expected{removal.joint};
       }},
      {"one left out of its bag", "bag missing", apart,
       [](Job& job, Dice& dice) -> Planted {
         const auto alone = own_removal(job, dice);
         if (!alone) return std::nullopt;
         alone->removal->bag.clear();
         return Expected{alone->removal->joint};
       }},
      {"removal entered twice", "out twice", apart,
       [](Job& job, Dice& dice) -> Planted {
         const auto removal = dice.one_of(job.removals).content;
         const int position = dice.one_of(removal.positions);
         job.removals.push_back({next_stamp(job, after(job.removals.back().stamp)), removal});
         job.removals.back().content.positions = {position};
         return Expected{removal.joint, position};
       }},
      {"hole found empty", "found empty", apart,
       removed_as([](record::Removal& removal) { removal.broke = BreakLoose::Empty; })},
      {"head sheared", "break loose", apart,
       removed_as([](record::Removal& removal) { removal.broke = BreakLoose::Sheared; })},
      {"already loose", "break loose", apart,
       removed_as([](record::Removal& removal) { removal.broke = BreakLoose::AlreadyLoose; })},
      {"seized", "break loose", apart,
       removed_as([](record::Removal& removal) { removal.broke = BreakLoose::Seized; })},
      {"thread pulled", "damaged thread", apart, removed_as([](record::Removal& removal) {
         removal.damaged_thread = record::DamagedThread::Hole;
       })},
      {"thread pulled, and torn in the hole", "damaged hole", apart,
       removed_as(
           [](record::Removal& removal) { removal.damaged_thread = record::DamagedThread::Both; })},
      {"wrong length", "other fastener", apart, removed_as([](record::Removal& removal) {
         removal.other_length = quantity::Length::millimetres(33);
       })},
      {"wrong size", "other fastener", apart,
       removed_as([](record::Removal& removal) { removal.other_size = "M14x2"; })},
      {"wrong grade", "other fastener", apart,
       removed_as([](record::Removal& removal) { removal.other_grade = "10.9"; })},
      {"one-time bolts not renewed", "one-time fastener", apart,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = dice.one_of(job.joints).content;
         joint.one_time = true;
         return Expected{joint.code};
       }},
      {"sheared, and something was put in", "not renewed", Stage::Closed,
       removed_as([](record::Removal& removal) { removal.broke = BreakLoose::Sheared; })},
  };
}

std::vector<Fault> wrench_faults() {
  const auto apart = Stage::TakenApart;
  return {
      {"tested below the wrench's range", "wrench range", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& measured = dice.one_of(job.findings).content;
         if (measured.readings.back().setting >= 80.0) return std::nullopt;
         measured.wrench = "TW4";
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == "TW4") wrench.content.scale.low = 0.0;
         }
         return Expected{measured.joint};
       }},
      {"tested below the wrench's scale", "wrench scale", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& measured = dice.one_of(job.findings).content;
         if (measured.readings.back().setting >= 80.0) return std::nullopt;
         measured.wrench = "TW4";
         return Expected{measured.joint};
       }},
      {"tested with an expired wrench", "wrench calibration", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         const auto& measured = dice.one_of(job.findings).content;
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == measured.wrench) {
             wrench.content.calibrated = record::read_day("2025-02-01");
           }
         }
         return Expected{measured.joint};
       }},
      {"scale of the wrench entered anew in another unit", "wrench scale", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& measured = dice.one_of(job.findings).content;
         measured.unit = quantity::TorqueUnit::FootPoundForce;
         return Expected{measured.joint};
       }},
      {"wrench found off afterwards", "wrench found off", apart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         const auto& measured = dice.one_of(job.findings).content;
         auto wrench = *record::wrench_in(job, measured.wrench);
         wrench.calibrated = record::read_day("2026-08-03");
         wrench.found_off = quantity::Percent::of_hundred(dice.real(3.5, 15.0));
         job.wrenches.push_back({next_stamp(job, audit_moment()), wrench});
         return Expected{measured.joint};
       }},
      {"tightened with a wrench that was found off", "wrench found off", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         auto wrench = *record::wrench_in(job, entry->content.wrench);
         wrench.calibrated = record::read_day("2026-08-03");
         wrench.found_off = quantity::Percent::of_hundred(dice.real(3.5, 15.0));
         job.wrenches.push_back({next_stamp(job, audit_moment()), wrench});
         return about_joint(entry->content);
       }},
      {"found off, and a wide deviation stated with it", "wrench found off", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         auto wrench = *record::wrench_in(job, entry->content.wrench);
         wrench.calibrated = record::read_day("2026-08-03");
         wrench.found_off = quantity::Percent::of_hundred(dice.real(3.5, 15.0));
         wrench.accuracy = quantity::Percent::of_hundred(20.0);
         job.wrenches.push_back({next_stamp(job, audit_moment()), wrench});
         return about_joint(entry->content);
       }},
      {"no wrench reaches so far", "no wrench", apart,
       specified_as([](Job&, record::Specified& specified) { retype(specified, "2000 N·m"); })},
      {"tolerance too narrow for any wrench", "coarse wrench", apart,
       specified_as([](Job&, record::Specified& specified) { retype(specified, "60 N·m ±2%"); })},
      {"tightened with a wrench too coarse for its tolerance", "coarse wrench", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return sets_final_value(job, one) && !has_angle(job, one.content.joint);
         });
         if (entry == nullptr) return std::nullopt;
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == entry->content.wrench) {
             wrench.content.accuracy = quantity::Percent::of_hundred(dice.real(20.0, 40.0));
           }
         }
         return about_joint(entry->content);
       }},
      {"joint waits for one that is not there", "missing joint", apart,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = dice.one_of(job.joints).content;
         (dice.yes(0.5) ? joint.after : joint.covers).push_back("J99");
         return Expected{joint.code};
       }},
      {"tightened below the wrench's range", "tightened out of range", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return sets_final_value(job, one) && one.content.wrench == "TW2" &&
                  *one.content.setting < 80.0;
         });
         if (entry == nullptr) return std::nullopt;
         auto wrench = *record::wrench_in(job, "TW4");
         wrench.name = "TW9";
         wrench.scale.low = 0;  // 180 N·m is the least that it may be used at
         job.wrenches.push_back({next_stamp(job, audit_moment()), wrench});
         entry->content.wrench = wrench.name;
         return about_joint(entry->content);
       }},
      {"set below the wrench's scale", "tightening scale", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return sets_final_value(job, one) && one.content.wrench == "TW2" &&
                  *one.content.setting < 80.0;
         });
         if (entry == nullptr) return std::nullopt;
         entry->content.wrench = "TW4";
         return about_joint(entry->content);
       }},
      {"scale of the wrench that tightened entered anew in another unit", "tightening scale",
       Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == entry->content.wrench) {
             wrench.content.scale.unit = quantity::TorqueUnit::FootPoundForce;
           }
         }
         return about_joint(entry->content);
       }},
      {"tightened with a wrench without a calibration", "tightened out of calibration",
       Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == entry->content.wrench) wrench.content.calibrated.reset();
         }
         return about_joint(entry->content);
       }},
      {"tightened with an expired wrench", "tightened out of calibration", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         for (auto& wrench : job.wrenches) {
           if (wrench.content.name == entry->content.wrench) {
             wrench.content.calibrated = record::read_day("2025-02-01");
           }
         }
         return about_joint(entry->content);
       }},
  };
}

void close_hold_point(Job& job, record::Moment at) {
  job.hold_point_steps.push_back({next_stamp(job, at), {"HV", record::HoldPointMove::Closed, ""}});
}

std::vector<Fault> record_faults() {
  return {
      {"joint struck, its findings left", "stray entry", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& measured = dice.one_of(job.findings).content;
         measured.joint = "J77";
         return about(measured);
       }},
      {"tested after it was tightened", "found after tightening", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& finding = dice.one_of(job.findings);
         finding.stamp.done_at = after(job.tightenings.back().stamp);
         return about(finding.content);
       }},
      {"tested while it holds a live load", "not to be tested", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         const auto& measured = dice.one_of(job.findings).content;
         joint_named(job, measured.joint).live_load = true;
         return about(measured);
       }},
      {"one-time angle bolts tested", "not to be tested", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto* entry = finding_with(job, dice, true);
         if (entry == nullptr) return std::nullopt;
         joint_named(job, entry->content.joint).one_time = true;
         return about(entry->content);
       }},
      {"the line of what came out struck", "never out", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto joint = dice.one_of(job.removals).content.joint;
         std::erase_if(job.removals,
                       [&](const auto& entry) { return entry.content.joint == joint; });
         return Expected{joint};
       }},
      {"a joint that nobody opened while the others went back", "never out", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto joint = dice.one_of(job.removals).content.joint;
         const auto is_of_it = [&](const auto& entry) { return entry.content.joint == joint; };
         std::erase_if(job.removals, is_of_it);
         std::erase_if(job.tightenings, is_of_it);
         std::erase_if(job.stripes, is_of_it);
         if (job.tightenings.empty()) return std::nullopt;
         return Expected{joint};
       }},
      {"pulled at after the final stripe", "found after tightening", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& stripe = dice.one_of(job.stripes);
         record::Pull pull;
         pull.joint = stripe.content.joint;
         pull.position = dice.one_of(stripe.content.positions);
         pull.wrench = "TW2";
         job.pulls.push_back({next_stamp(job, after(stripe.stamp)), pull});
         return Expected{pull.joint, pull.position};
       }},
      {"hold point never passed", "hold point", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         job.hold_point_steps.pop_back();
         return Expected{dice.one_of(job.removals).content.joint};
       }},
      {"hold point closed before the work", "hold point", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& work = dice.one_of(job.tightenings);
         close_hold_point(job, work.stamp.done_at - std::chrono::seconds(10));
         return about_joint(work.content);
       }},
      {"tested behind a hold point that was shut", "hold point", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         const auto& finding = dice.one_of(job.findings);
         close_hold_point(job, finding.stamp.done_at - std::chrono::seconds(10));
         return Expected{finding.content.joint};
       }},
      {"striped behind a hold point that was shut", "hold point", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& stripe = dice.one_of(job.stripes);
         close_hold_point(job, stripe.stamp.done_at - std::chrono::seconds(10));
         return Expected{stripe.content.joint};
       }},
      {"pulled behind a hold point that was shut", "hold point", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         const auto& removal = dice.one_of(job.removals);
         const auto at = job.removals.back().stamp.done_at + std::chrono::hours(1);
         record::Pull pull;
         pull.joint = removal.content.joint;
         pull.position = dice.one_of(removal.content.positions);
         pull.wrench = "TW2";
         close_hold_point(job, at);
         job.pulls.push_back({next_stamp(job, at + std::chrono::seconds(10)), pull});
         return Expected{pull.joint, std::nullopt};
       }},
      {"an earlier passing entered after the hold point was closed", "hold point", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& work = dice.one_of(job.tightenings);
         const auto closed = work.stamp.done_at - std::chrono::seconds(10);
         close_hold_point(job, closed);
         job.hold_point_steps.push_back({next_stamp(job, closed - std::chrono::hours(1)),
                                         {"HV", record::HoldPointMove::Passed, ""}});
         return about_joint(work.content);
       }},
      {"tested while it lay in its bag", "tested in its bag", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         auto& finding = dice.one_of(job.findings);
         finding.stamp.done_at = job.removals.back().stamp.done_at + std::chrono::hours(30);
         return about(finding.content);
       }},
      {"a counter that runs backwards", "counter backwards", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& stripe = dice.one_of(job.stripes);
         stripe.content.counter = record::RunningAmount{1240.0, record::Counter::RunningHours};
         job.rechecks.push_back(
             {next_stamp(job, audit_moment()),
              {stripe.content.joint, stripe.content.positions, std::nullopt,
               record::RunningAmount{dice.real(100.0, 1200.0), record::Counter::RunningHours}}});
         return Expected{""};
       }},
      {"a line dated in the future", "ahead of the clock", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         dice.one_of(job.stripes).stamp.done_at = audit_moment() + std::chrono::days(2);
         return Expected{""};
       }},
      {"joints that wait for each other", "no order", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = dice.one_of(job.joints).content;
         auto& other = dice.one_of(job.joints).content;
         if (&joint == &other) return std::nullopt;
         joint.after.push_back(other.code);
         other.after.push_back(joint.code);
         return Expected{""};
       }},
  };
}

std::vector<Fault> tightening_faults() {
  const auto closed = Stage::Closed;
  return {
      {"a pass skipped", "pass skipped", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return one.content.pass < last_pass(job, one.content.joint);
         });
         if (entry == nullptr) return std::nullopt;
         const auto planted = about_joint(entry->content);
         job.tightenings.erase(job.tightenings.begin() + (entry - job.tightenings.data()));
         return planted;
       }},
      {"a pass left out with a reason", "pass skipped", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         entry->content.skipped_why = "cannot be reached";
         entry->content.setting.reset();
         return about_joint(entry->content);
       }},
      {"the next pass begun too early", "pass order", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* early =
             tightening_with(job, dice, [](const auto& one) { return one.content.pass > 1; });
         if (early == nullptr) return std::nullopt;
         auto* late = tightening_with(job, dice, [&](const auto& one) {
           // At one position the pull that came last would be the one that counts: another fault.
           return one.content.joint == early->content.joint &&
                  one.content.pass == early->content.pass - 1 &&
                  one.content.positions != early->content.positions;
         });
         if (late == nullptr) return std::nullopt;
         std::swap(early->stamp.done_at, late->stamp.done_at);
         return about_joint(early->content);
       }},
      {"round instead of crosswise", "position order", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* one = tightening_with(job, dice, [](const auto&) { return true; });
         auto* other = tightening_with(job, dice, [&](const auto& candidate) {
           return candidate.content.joint == one->content.joint &&
                  candidate.content.pass == one->content.pass &&
                  candidate.content.positions != one->content.positions;
         });
         std::swap(one->stamp.done_at, other->stamp.done_at);
         return about_joint(one->content);
       }},
      {"closed before what lies under it", "joint order", closed,
       [](Job& job, Dice& dice) -> Planted {
         std::vector<std::pair<std::string, std::string>> pairs;
         for (const auto& joint : job.joints) {
           for (const auto& first : joint.content.after)
             pairs.emplace_back(joint.content.code, first);
         }
         if (pairs.empty()) return std::nullopt;
         const auto& [joint, first] = dice.one_of(pairs);
         std::string hurried = joint;
         auto earliest = audit_moment();
         for (const auto& entry : job.tightenings) {
           if (entry.content.joint == first) earliest = std::min(earliest, entry.stamp.done_at);
         }
         for (auto& entry : job.tightenings) {
           if (entry.content.joint == hurried) {
             entry.stamp.done_at = earliest;
             break;
           }
         }
         return Expected{hurried};
       }},
      {"a whole joint tested behind the tolerance, one by one", "found low", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = finding_with(job, dice, false);
         if (entry == nullptr) return std::nullopt;
         const auto joint = entry->content.joint;
         int changed = 0;
         for (auto& finding : job.findings) {
           if (finding.content.joint != joint) continue;
           scale(finding.content, 0.6);
           ++changed;
         }
         if (changed < 2) return std::nullopt;
         return Expected{joint};
       }},
      {"pulled too far", "over-torqued", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         *entry->content.setting *= dice.real(1.15, 1.5);
         return about(entry->content);
       }},
      {"final value not reached", "under-torqued", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         *entry->content.setting *= dice.real(0.5, 0.85);
         return about(entry->content);
       }},
      {"a stripe that turned, out without a word and back", "stripe turned", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& stripe = dice.one_of(job.stripes);
         const auto content = stripe.content;
         const auto drawn = stripe.stamp;
         const int position = dice.one_of(content.positions);
         job.rechecks.push_back({next_stamp(job, after(drawn)),
                                 {content.joint, {position}, quantity::Angle::degrees(15.0), {}}});
         record::Removal removal;
         removal.joint = content.joint;
         removal.positions = {position};
         job.removals.push_back({next_stamp(job, after(drawn) + std::chrono::minutes(1)), removal});
         return Expected{content.joint, position};
       }},
      {"the specification entered anew after the work", "corrected after work", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         if (entry == nullptr) return std::nullopt;
         const auto joint = entry->content.joint;
         const auto found = std::ranges::find_if(
             job.specifications, [&](const auto& each) { return each.content.joint == joint; });
         if (found == job.specifications.end()) return std::nullopt;
         const auto content = found->content;
         const auto done_at = found->stamp.done_at;
         job.specifications.erase(found);
         job.specifications.push_back({next_stamp(job, done_at), content});
         return Expected{joint};
       }},
      {"a first round near the full value", "set otherwise", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return one.content.setting && one.content.pass == 1 &&
                  one.content.target.kind == record::PassKind::Torque &&
                  one.content.pass + 1 < last_pass(job, one.content.joint);
         });
         if (entry == nullptr) return std::nullopt;
         *entry->content.setting *= dice.real(1.08, 1.3);
         return about_joint(entry->content);
       }},
      {"a round that somebody else did once more", "done by two", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return one.content.setting && one.content.target.kind == record::PassKind::Torque &&
                  one.content.pass + 1 == last_pass(job, one.content.joint);
         });
         if (entry == nullptr) return std::nullopt;
         auto again = *entry;
         again.stamp = next_stamp(job, entry->stamp.done_at + std::chrono::seconds(1));
         again.stamp.by = "somebody else";
         const auto planted = about_joint(again.content);
         job.tightenings.push_back(std::move(again));
         return planted;
       }},
      {"a self-locking fastener run down on what the seat asks for", "running torque left out",
       closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = finding_with(job, dice, false);
         if (entry == nullptr || joint_named(job, entry->content.joint).count < 2) {
           return std::nullopt;
         }
         const bool is_as_asked = std::ranges::any_of(job.tightenings, [&](const auto& one) {
           const auto& done = one.content;
           return done.joint == entry->content.joint && !done.second_check &&
                  sets_final_value(job, one) && done.target.torque &&
                  record::applied_torque(done) &&
                  std::abs(*record::applied_torque(done) / *done.target.torque - 1.0) < 0.005;
         });
         if (!is_as_asked) return std::nullopt;
         entry->content.prevailing = quantity::StatedTorque{0.5, quantity::TorqueUnit::NewtonMetre};
         return Expected{entry->content.joint};
       }},
      {"turned a second time on top of the first", "turn outside its window", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(
             job, dice, [](const auto& one) { return one.content.turned.has_value(); });
         if (entry == nullptr) return std::nullopt;
         auto again = *entry;
         again.content.positions = {entry->content.positions.front()};
         again.stamp = next_stamp(job, after(entry->stamp));
         job.tightenings.push_back(again);
         return about(again.content);
       }},
      {"turned too far", "turn outside its window", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(
             job, dice, [](const auto& one) { return one.content.turned.has_value(); });
         if (entry == nullptr) return std::nullopt;
         entry->content.turned = quantity::Angle::degrees(dice.yes(0.5) ? 54.0 : 70.0);
         return about(entry->content);
       }},
      {"specification changed after the work", "other target", closed,
       specified_as([](Job&, record::Specified& specified) { retype(specified, "37 N·m ±20%"); })},
      {"joint put right as a smaller one after the work", "tightened past yield", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return sets_final_value(job, one) && !has_angle(job, one.content.joint);
         });
         if (entry == nullptr) return std::nullopt;
         auto& joint = joint_named(job, entry->content.joint);
         joint.size = "M5x0.8";
         joint.grade = "4.6";
         return about(entry->content);
       }},
      {"joint put right as a smaller one than its torque", "implausible", closed,
       specified_as([](Job& job, record::Specified& specified) {
         auto& joint = joint_named(job, specified.joint);
         joint.size = "M3x0.5";
         joint.grade = "4.6";
       })},
      {"teardown mark not wiped off", "two marks", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& stripe = dice.one_of(job.stripes).content;
         stripe.teardown_mark_wiped = false;
         return Expected{stripe.joint, dice.one_of(stripe.positions)};
       }},
      {"a stripe forgotten", "no final stripe", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& stripe = dice.one_of(job.stripes).content;
         stripe.positions.erase(stripe.positions.begin() +
                                dice.whole(0, static_cast<int>(stripe.positions.size()) - 1));
         return Expected{stripe.joint};
       }},
      {"stripe drawn before the last pass", "stripe too early", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& stripe = dice.one_of(job.stripes);
         for (const auto& entry : job.tightenings) {
           if (entry.content.joint == stripe.content.joint && !entry.content.second_check) {
             stripe.stamp.done_at = entry.stamp.done_at - std::chrono::seconds(10);
           }
         }
         return Expected{stripe.content.joint};
       }},
      {"one left in its bag", "not back", closed,
       [](Job& job, Dice& dice) -> Planted {
         // A second check alone is no work.
         const auto planted = tightening_with(job, dice, [](const auto&) { return true; })->content;
         std::erase_if(job.tightenings, [&](const auto& entry) {
           return entry.content.joint == planted.joint &&
                  entry.content.positions == planted.positions;
         });
         return about_joint(planted);
       }},
      {"new one where none came out", "renewed in place", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto removal = dice.one_of(job.removals).content;
         const auto before = job.tightenings.front().stamp.done_at - std::chrono::hours(1);
         job.renewals.push_back({next_stamp(job, before), {removal.joint, removal.positions}});
         std::erase_if(job.removals,
                       [&](const auto& entry) { return entry.content.joint == removal.joint; });
         return Expected{removal.joint};
       }},
      {"new ones that came after the old went back", "one-time fastener", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = dice.one_of(job.joints).content;
         joint.one_time = true;
         record::Renewal renewal{joint.code, {}};
         for (int position = 1; position <= joint.count; ++position) {
           renewal.positions.push_back(position);
         }
         job.renewals.push_back({next_stamp(job, audit_moment()), std::move(renewal)});
         return Expected{joint.code};
       }},
      {"a clip left over", "item count", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto joint = dice.one_of(job.tightenings).content.joint;
         job.items.push_back({next_stamp(job, audit_moment()), {"C1", "clips", 4, joint}});
         job.item_returns.push_back({next_stamp(job, audit_moment()), {"C1", 3}});
         return Expected{joint};
       }},
      {"far more oil than came out", "fluid balance", closed,
       [](Job& job, Dice&) -> Planted {
         const auto litres = [](double amount) {
           return quantity::Volume::millilitres(amount * 1000.0);
         };
         using record::FluidMove;
         job.fluids.push_back({next_stamp(job, audit_moment()),
                               {"oil", FluidMove::Drained, litres(1.2), "1.2 L", ""}});
         job.fluids.push_back({next_stamp(job, audit_moment()),
                               {"oil", FluidMove::Filled, litres(6.2), "6.2 L", ""}});
         return Expected{""};
       }},
      {"clips put back when the joint was closed", "closed over", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto joint = dice.one_of(job.tightenings).content.joint;
         const auto opened = job.removals.back().stamp.done_at + std::chrono::hours(1);
         job.items.push_back({next_stamp(job, opened), {"C1", "clips", 4, joint}});
         job.item_returns.push_back({next_stamp(job, audit_moment()), {"C1", 4}});
         return Expected{joint};
       }},
      {"opened once more under its cover", "under cover", closed,
       [](Job& job, Dice& dice) -> Planted {
         // The plan closes them in this order.
         const auto& under = job.tightenings.front().content.joint;
         const auto& cover = job.tightenings.back().content.joint;
         if (under == cover) return std::nullopt;
         joint_named(job, cover).covers.push_back(under);
         record::Removal again;
         again.joint = under;
         again.positions = {dice.whole(1, joint_named(job, under).count)};
         job.removals.push_back({next_stamp(job, audit_moment()), again});
         return Expected{under, again.positions.front()};
       }},
      {"looked at under its cover", "looked under cover", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& under = job.tightenings.front().content.joint;
         const auto& cover = job.tightenings.back().content.joint;
         if (under == cover) return std::nullopt;
         joint_named(job, cover).covers.push_back(under);
         const int position = dice.whole(1, joint_named(job, under).count);
         job.rechecks.push_back(
             {next_stamp(job, audit_moment()), {under, {position}, std::nullopt, {}}});
         return Expected{under, position};
       }},
      {"nobody looked again", "re-check overdue", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = dice.one_of(job.joints).content;
         joint.rechecks = {record::read_recheck_interval("1 min")};
         return Expected{joint.code};
       }},
      {"stripe found turned", "stripe turned", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& stripe = dice.one_of(job.stripes).content;
         const int position = dice.one_of(stripe.positions);
         job.rechecks.push_back({next_stamp(job, audit_moment()),
                                 {stripe.joint, {position}, quantity::Angle::degrees(10.0), {}}});
         return Expected{stripe.joint};
       }},
      {"checked by the one who did it", "second person", closed,
       [](Job& job, Dice&) -> Planted {
         for (auto& entry : job.tightenings) {
           if (!entry.content.second_check) continue;
           entry.stamp.by = "kb";
           return about_joint(entry.content);
         }
         return std::nullopt;
       }},
      {"critical joint without a second person", "second person", closed,
       [](Job& job, Dice&) -> Planted {
         const auto check = std::ranges::find_if(
             job.tightenings, [](const auto& entry) { return entry.content.second_check; });
         if (check == job.tightenings.end()) return std::nullopt;
         const auto planted = about_joint(check->content);
         job.tightenings.erase(check);
         return planted;
       }},
  };
}

// A random position that carries its final stripe, with the line of that.
struct Striped {
  record::Entry<record::FinalStripe>* stripe;
  int position;
};
Striped any_striped(Job& job, Dice& dice) {
  auto& stripe = dice.one_of(job.stripes);
  return {&stripe, dice.one_of(stripe.content.positions)};
}

// The decision to repair it, and the line that says that it was done.
void repair(Job& job, const std::string& joint, int position, record::Moment at) {
  record::Disposition disposition;
  disposition.deviation = "damaged-thread:" + record::write_address(joint, position);
  disposition.rule = "damaged thread";
  disposition.joint = joint;
  disposition.position = position;
  disposition.evidence = "0123456789abcdef";
  disposition.judged_on = "a thread is damaged";
  disposition.decision = record::Decision::Repair;
  disposition.reason = "thread insert";
  job.dispositions.push_back({next_stamp(job, at), disposition});
  disposition.done = "insert fitted";
  job.dispositions.push_back({next_stamp(job, at + std::chrono::minutes(1)), disposition});
}

// Lines that are dated before others, or taken away from under them.
std::vector<Fault> faults_of_time() {
  const auto closed = Stage::Closed;
  return {
      {"taken out between two of its passes", "pass skipped", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto* entry =
             tightening_with(job, dice, [](const auto& one) { return one.content.pass > 1; });
         if (entry == nullptr) return std::nullopt;
         record::Removal removal;
         removal.joint = entry->content.joint;
         removal.positions = entry->content.positions;
         const auto between = entry->stamp.done_at - std::chrono::seconds(10);
         const auto planted = about(entry->content);
         job.removals.push_back({next_stamp(job, between), removal});
         return planted;
       }},
      {"wrench struck after its work", "stray entry", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice,
                                       [&](const auto& one) { return sets_final_value(job, one); });
         if (entry == nullptr) return std::nullopt;
         std::erase_if(job.wrenches, [&](const auto& wrench) {
           return wrench.content.name == entry->content.wrench;
         });
         return about(entry->content);
       }},
      {"tightening dated before it came out", "tightened before out", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         const auto removal = std::ranges::find_if(job.removals, [&](const auto& one) {
           return one.content.joint == entry->content.joint;
         });
         entry->stamp.done_at = removal->stamp.done_at - std::chrono::hours(1);
         return about(entry->content);
       }},
      {"tightening dated before the pass that it follows", "dated too early", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto pass_before = [&](const record::Entry<record::Tightening>& entry) {
           return std::ranges::find_if(job.tightenings, [&](const auto& one) {
             const auto applied = record::applied_torque(one.content);
             const auto then = record::applied_torque(entry.content);
             return one.content.joint == entry.content.joint &&
                    one.content.pass == entry.content.pass - 1 && record::is_work(one.content) &&
                    one.content.positions.front() == entry.content.positions.front() && applied &&
                    then && *applied < *then;
           });
         };
         auto* entry = tightening_with(job, dice, [&](const auto& one) {
           return record::is_work(one.content) && pass_before(one) != job.tightenings.end();
         });
         if (entry == nullptr) return std::nullopt;
         entry->stamp.done_at = pass_before(*entry)->stamp.done_at - std::chrono::milliseconds(500);
         return about(entry->content);
       }},
      {"work dated before the hold point was put up", "hold point", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         entry->stamp.done_at =
             job.hold_points.front().stamp.done_at - std::chrono::minutes(dice.whole(1, 600));
         return about(entry->content);
       }},
      {"hold point put up too late for the work", "hold point", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         auto late = next_stamp(job, audit_moment());
         late.done_at = entry->stamp.done_at - std::chrono::seconds(10);
         job.hold_points.push_back({late, {"LOAD", "load on stands", {}, {entry->content.joint}}});
         return about_joint(entry->content);
       }},
      {"repaired after the final value", "stripe too early", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto [stripe, position] = any_striped(job, dice);
         repair(job, stripe->content.joint, position, audit_moment() - std::chrono::days(1));
         return Expected{stripe->content.joint, position};
       }},
      {"slackened after the final stripe", "stripe too early", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto [stripe, position] = any_striped(job, dice);
         record::Tightening slackened;
         slackened.joint = stripe->content.joint;
         slackened.positions = {position};
         slackened.pass = 1;
         slackened.target.kind = record::PassKind::Loosen;
         job.tightenings.push_back({next_stamp(job, after(stripe->stamp)), slackened});
         return Expected{stripe->content.joint, position};
       }},
      {"stripe found turned before it was drawn once more", "stripe turned", closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto [stripe, position] = any_striped(job, dice);
         const auto content = stripe->content;
         const auto drawn = stripe->stamp;
         job.stripes.push_back({next_stamp(job, after(drawn) + std::chrono::hours(1)), content});
         job.rechecks.push_back({next_stamp(job, after(drawn)),
                                 {content.joint, {position}, quantity::Angle::degrees(15.0), {}}});
         return Expected{content.joint};
       }},
      {"one line that went round the wrong way", "position order", closed,
       [](Job& job, Dice& dice) -> Planted {
         auto* entry = tightening_with(job, dice, [](const auto&) { return true; });
         auto together = *entry;
         together.content.positions.clear();
         std::erase_if(job.tightenings, [&](const auto& one) {
           const bool is_of_it = !one.content.second_check &&
                                 one.content.joint == together.content.joint &&
                                 one.content.pass == together.content.pass;
           if (is_of_it) together.content.positions.push_back(one.content.positions.front());
           return is_of_it;
         });
         if (together.content.positions.size() < 3) return std::nullopt;
         std::ranges::reverse(together.content.positions);
         together.content.in_order = true;
         const auto joint = together.content.joint;
         job.tightenings.push_back(std::move(together));
         return Expected{joint};
       }},
  };
}

// Says of two lines that they were written in two copies of the logbook.
void write_apart(Job& job, const record::Stamp& here, const record::Stamp& there) {
  job.apart.add(here.id, {0, 0, 0, nullptr});
  job.apart.add(there.id, {0, 1, 0, nullptr});
}

// What this line says, once more in another copy.
template <class Kind>
record::Entry<Kind>& once_more_apart(Job& job, const record::Entry<Kind>& entry) {
  const auto stamp = entry.stamp;
  const auto content = entry.content;
  auto& entries = record::entries_of<Kind>(job);
  entries.push_back({next_stamp(job, after(stamp), "LM"), content});
  write_apart(job, stamp, entries.back().stamp);
  return entries.back();
}

std::vector<Fault> faults_of_copies() {
  return {
      {"one fastener tested in two copies", "found apart", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         if (job.findings.empty()) return std::nullopt;
         return about(once_more_apart(job, dice.one_of(job.findings)).content);
       }},
      {"one code for two joints", "two meanings", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         auto& joint = once_more_apart(job, dice.one_of(job.joints)).content;
         joint.holds = "another part";
         return Expected{joint.code};
       }},
      {"two decisions on one matter", "decided apart", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         record::Disposition decided;
         decided.joint = dice.one_of(job.joints).content.code;
         decided.deviation = "bag-missing:" + decided.joint;
         decided.rule = "bag missing";
         decided.evidence = "0123456789abcdef";
         decided.reason = "looked at";
         decided.parts = {{decided.deviation, std::nullopt, decided.evidence}};
         job.dispositions.push_back({next_stamp(job, after(job.removals.back().stamp)), decided});
         const auto first = job.dispositions.back();
         once_more_apart(job, first).content.decision = record::Decision::CorrectRecord;
         return Expected{decided.joint};
       }},
      {"one pass tightened in two copies", "tightened apart", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& entry = dice.one_of(job.tightenings);
         if (!record::is_work(entry.content)) return std::nullopt;
         const auto& again = once_more_apart(job, entry).content;
         return Expected{again.joint, again.positions.front()};
       }},
      {"one stripe recorded in two copies", "striped apart", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto [stripe, position] = any_striped(job, dice);
         auto& again = once_more_apart(job, record::Entry<record::FinalStripe>(*stripe)).content;
         again.teardown_mark_wiped = !again.teardown_mark_wiped;
         return Expected{again.joint, position};
       }},
      {"one stripe looked at in two copies", "looked apart", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto [stripe, position] = any_striped(job, dice);
         const auto joint = stripe->content.joint;
         job.rechecks.push_back({next_stamp(job, after(stripe->stamp)),
                                 {joint, {position}, quantity::Angle::degrees(10.0), {}}});
         const auto first = job.rechecks.back();
         once_more_apart(job, first).content.turned.reset();
         return Expected{joint, position};
       }},
      {"one new fastener fitted in one copy and logged in another", "arrived apart", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto fitted = dice.one_of(job.tightenings);
         if (!record::is_work(fitted.content) ||
             fitted.content.target.kind == record::PassKind::Loosen) {
           return std::nullopt;
         }
         const record::Renewal arrived{fitted.content.joint, {fitted.content.positions.front()}};
         job.renewals.push_back(
             {next_stamp(job, fitted.stamp.done_at - std::chrono::seconds(30)), arrived});
         const auto first = job.renewals.back().stamp;
         job.renewals.push_back({next_stamp(job, after(fitted.stamp), "LM"), arrived});
         write_apart(job, first, job.renewals.back().stamp);
         job.apart.add(fitted.stamp.id, {0, 0, 1, nullptr});
         return Expected{arrived.joint, arrived.positions.front()};
       }},
      {"one drain logged in two copies", "logged apart", Stage::TakenApart,
       [](Job& job, Dice& dice) -> Planted {
         const auto& last = job.removals.back().stamp;
         job.fluids.push_back({next_stamp(job, after(last)),
                               {"gear oil", record::FluidMove::Drained,
                                quantity::Volume::millilitres(dice.whole(100, 5000)), "", ""}});
         const auto first = job.fluids.back();
         once_more_apart(job, first);
         return Expected{""};
       }},
      {"struck in one copy, gone on from in another", "struck apart", Stage::Closed,
       [](Job& job, Dice& dice) -> Planted {
         const auto& upon = dice.one_of(job.tightenings);
         // As it was entered first, at the very beginning.
         record::Apart::Struck struck{next_stamp(job, after(upon.stamp), "LM"), upon.stamp,
                                      upon.content};
         struck.stamp.id = "00000000-0000-7000-8000-000000000000";
         write_apart(job, upon.stamp, struck.by);
         job.apart.add(struck);
         return Expected{upon.content.joint};
       }},
  };
}

}  // namespace

const std::vector<Fault>& all_faults() {
  static const std::vector<Fault> all = [] {
    std::vector<Fault> faults;
    for (auto&& some :
         {found_faults(), specification_faults(), fastener_faults(), wrench_faults(),
          record_faults(), tightening_faults(), faults_of_time(), faults_of_copies()}) {
      faults.insert(faults.end(), some.begin(), some.end());
    }
    return faults;
  }();
  return all;
}
