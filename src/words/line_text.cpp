#include "words/line_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/as_typed.h"
#include "words/adapter_in_words.h"
#include "words/joint_heading.h"
#include "words/photograph_in_words.h"
#include "words/reassembly_line_text.h"

namespace words {
namespace {

std::string say(const record::LogbookStart& start) {
  return fmt::format(
      "logbook for {}; {}, tolerance {} and angle window ±{} where none is given, method error {}",
      start.machine, quantity::name_of(start.unit),
      record::as_typed(start.tolerance_typed, std::optional(start.default_tolerance)),
      record::as_typed(start.angle_typed, std::optional(start.angle_window)),
      record::as_typed(start.method_typed, std::optional(start.method_error)));
}

std::string say(const record::Wrench& wrench) {
  const auto ends = record::calibration_ends(wrench);
  return fmt::format(
      "{}, {}, graduation {}, usable from {} {}{}; {}{}", wrench.name, record::scale_text(wrench),
      record::graduation_text(wrench), quantity::write_rounded(record::least_setting(wrench)),
      quantity::name_of(wrench.scale.unit),
      wrench.accuracy ? ", accuracy " + record::accuracy_text(wrench) : "",
      ends ? "calibration valid to " + record::write_day(*ends)
           : std::string("no calibration on record"),
      wrench.found_off ? ", found off by " + quantity::write_exact(*wrench.found_off) : "");
}

std::string say(const record::Joint& joint) {
  std::string text = fmt::format("{} holds {}: {}; {}", joint.code, joint.holds,
                                 fasteners_text(joint), record::write_exact(joint.layout));
  if (const auto parts = parts_text(joint); !parts.empty()) text += "; " + parts;
  if (joint.one_time) text += "; one-time";
  if (joint.critical) text += "; critical";
  if (joint.live_load) text += "; holds a live load";
  if (joint.bench) text += "; on the bench";
  if (!joint.after.empty()) text += fmt::format("; after {}", fmt::join(joint.after, ", "));
  if (!joint.covers.empty()) text += fmt::format("; covers {}", fmt::join(joint.covers, ", "));
  if (!joint.final_when.empty()) text += "; final when " + joint.final_when;
  if (!joint.order.empty()) text += "; order " + joint.order;
  if (!joint.passes.empty()) text += "; passes " + joint.passes;
  for (std::size_t i = 0; i < joint.rechecks.size(); ++i) {
    text += (i == 0 ? "; re-check after " : ", ") + record::in_words(joint.rechecks[i]);
  }
  return text;
}

std::string say(const record::Specified& specified) {
  return fmt::format(
      "{}{} specified {}, {}; {}", specified.joint,
      specified.positions.empty() ? "" : "/" + record::write_positions(specified.positions),
      specified.typed, fastener::name_of(specified.condition),
      specified.source.empty() ? "no source" : specified.source);
}

// What came out that is not what the joint says.
std::string other_fastener(const record::Removal& removal) {
  std::string text;
  if (!removal.other_size.empty()) text += ", size " + removal.other_size;
  if (removal.other_length) text += ", length " + record::other_length_text(removal);
  if (!removal.other_grade.empty()) text += ", grade " + removal.other_grade;
  return text;
}

std::string damaged_thread(const record::Removal& removal) {
  if (!removal.damaged_thread) return {};
  const bool both = *removal.damaged_thread == record::DamagedThread::Both;
  return fmt::format(", thread damaged: {}",
                     both ? "fastener and hole" : record::word_of(*removal.damaged_thread));
}

std::string say(const record::Removal& removal) {
  const bool empty = removal.broke == record::BreakLoose::Empty;
  return fmt::format("{} {}{}{}{}{}{}{}", record::write_address(removal.joint, removal.positions),
                     empty ? "found " : "out, broke ", record::word_of(removal.broke),
                     removal.marked ? "" : ", no mark", damaged_thread(removal),
                     other_fastener(removal), removal.bag.empty() ? "" : ", bag " + removal.bag,
                     removal.note.empty() ? "" : ", note: " + removal.note);
}

std::string say(const record::Measured& measured) {
  std::string text =
      fmt::format("{} {} on {}", record::write_address(measured.joint, measured.position),
                  record::readings_text(measured), measured.wrench);
  if (!measured.radius_typed.empty()) text += ", marks at " + measured.radius_typed;
  if (record::is_used(measured.adapter)) {
    text += ", through " + adapter_in_words(measured.adapter);
  }
  if (measured.restart != record::Restart::Stacked) {
    text += fmt::format(", {}", record::word_of(measured.restart));
  }
  if (measured.neighbours) {
    text += fmt::format(", neighbours {}", record::word_of(*measured.neighbours));
  }
  if (measured.prevailing) {
    text += ", running torque " + quantity::write_exact(*measured.prevailing);
  }
  return text;
}

std::string say(const record::Disposition& settled) {
  if (!settled.done.empty()) {
    return fmt::format("done about {}, {}: {}", settled.deviation,
                       record::word_of(settled.decision), settled.done);
  }
  return fmt::format("settled {}: {}, {}{}; judged on: {}", settled.deviation,
                     record::word_of(settled.decision), settled.reason,
                     settled.second_person.empty() ? "" : ", with " + settled.second_person,
                     settled.judged_on);
}

std::string say(const record::Pull& pull) {
  return fmt::format("{} pull {} on {}{}", record::write_address(pull.joint, pull.position),
                     pull.typed, pull.wrench,
                     pull.restart == record::Restart::Stacked
                         ? ""
                         : fmt::format(", {}", record::word_of(pull.restart)));
}

std::string say(const record::Photograph& photograph) {
  return fmt::format("photograph of {}{}; {}", record::subject_of(photograph),
                     photograph.note.empty() ? "" : ": " + photograph.note,
                     picture_in_words(photograph));
}

std::string say(const record::Strike& strike) { return "struck: " + strike.reason; }

// What else was typed for a line. Kinds of which the sentence says everything are listed, so that a
// new kind does not compile before it is known which it is.
std::string besides(const record::Specified& specified) { return specified.typed; }
std::string besides(const record::Wrench& wrench) { return wrench.serial; }
template <class Kind>
requires record::OneOf<Kind, record::LogbookStart, record::Joint, record::Removal, record::Measured,
                       record::Pull, record::FluidAmount, record::CountedItem, record::ItemReturn,
                       record::HoldPoint, record::HoldPointStep, record::Renewal,
                       record::Tightening, record::FinalStripe, record::Recheck, record::Photograph,
                       record::Disposition, record::Strike>
    std::string besides(const Kind&) {
  return {};
}

}  // namespace

std::string typed_besides(const record::Content& content) {
  return std::visit([](const auto& kind) { return besides(kind); }, content);
}

std::string line_text(const record::Content& content) {
  return std::visit([](const auto& kind) { return say(kind); }, content);
}

}  // namespace words
