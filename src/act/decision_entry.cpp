#include "act/decision_entry.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <utility>

#include "act/named_deviation.h"
#include "audit/decision_table.h"
#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/settlement.h"
#include "audit/together.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/deviation_id.h"
#include "record/person.h"
#include "record/typed_text.h"
#include "words/deviation_in_words.h"
#include "words/line_text.h"

namespace act {
namespace {

// What a decision is about: a deviation, or a part of it, by the id that it has.
struct Matter {
  audit::Deviation deviation;
  std::string id;
};

void refuse_settled(const Matter& matter) {
  const auto& [deviation, id] = matter;
  const auto* part = audit::part_in(deviation, id);
  const auto* settled = part == nullptr ? deviation.settled : part->settled;
  if (settled == nullptr) return;
  throw failure::Refusal(fmt::format(
      "{} is settled already: {} by {} in line {}. To decide anew, strike that line first: "
      "strike {} --why ...",
      part == nullptr ? deviation.id : part->id, record::word_of(settled->content.decision),
      settled->stamp.by, settled->stamp.line, settled->stamp.line));
}

// A second person is another one; on a critical joint somebody has to be.
void check_second_person(const std::string& second, const std::string& by,
                         const audit::Deviation& deviation, const finding::Survey& survey) {
  const auto* joint = finding::joint_in(survey, deviation.joint);
  if (second.empty() && joint != nullptr && joint->joint->critical) {
    throw failure::Refusal(
        fmt::format("{} is critical: a second person has to agree; name them with --with WHO",
                    joint->joint->code));
  }
  if (record::is_same_person(second, by)) {
    throw failure::Refusal(fmt::format(
        "--with {}: the second person has to be another than {}, who decides", second, by));
  }
}

// Refuses a decision that is dated before the line which `line_of` tells of one of its parts.
template <class LineOf>
void refuse_before(const audit::Deviation& deviation, const record::Disposition& disposition,
                   record::Moment done_at, LineOf&& line_of, std::string_view rests_on,
                   std::string_view why) {
  for (const auto& part : deviation.parts) {
    if (std::ranges::find(disposition.parts, part.id, &record::DecidedOn::deviation) ==
        disposition.parts.end()) {
      continue;
    }
    const record::Stamp* line = line_of(part);
    if (line == nullptr || line->done_at <= done_at) continue;
    throw failure::Refusal(fmt::format("{} {} line {}, of {}, after this: {}", part.id, rests_on,
                                       line->line, record::write_local(line->done_at), why));
  }
}

// What was decided has been done: the decision once more, with the words that say what was done.
record::Disposition done_or_refuse(const Matter& matter, record::Moment done_at) {
  const auto& [deviation, id] = matter;
  auto disposition = audit::carried_out(deviation, id);
  if (!disposition) {
    throw failure::Refusal(fmt::format(
        "no repair that was decided about {} is still to be done; a correction is done by the line "
        "that puts the record right, a re-torque by the tightening, a renewal by the new fastener "
        "that goes in",
        deviation.id));
  }
  if (disposition->decision == record::Decision::CorrectRecord) {
    const auto* part = &*std::ranges::find(deviation.parts, disposition->parts.front().deviation,
                                           &audit::Part::id);
    throw failure::Refusal(fmt::format(
        "{} rests on the same lines as when it was decided: a word corrects no record. Strike the "
        "wrong line or enter it again with --replace{}, which closes it. Where the record is right "
        "after all, strike the decision and decide anew: strike {} --why ...",
        part->id,
        part->told_in == nullptr ? "" : fmt::format(" (line {} says it)", part->told_in->line),
        part->settled->stamp.line));
  }
  refuse_before(
      deviation, *disposition, done_at,
      [](const audit::Part& part) { return &part.settled->stamp; }, "was decided in",
      "what was decided is done after it. Give the time when it was done with --at");
  return *std::move(disposition);
}

void check_decision_words(const DecisionWords& words) {
  const bool decides = !words.decision.empty() && !words.why.empty() && words.done.empty();
  const bool says_done = !words.done.empty() && words.decision.empty() && words.why.empty();
  if (decides || says_done) return;
  throw failure::UsageError(
      "settle needs --as DECISION with --why TEXT; or, once what was decided is done, --done TEXT "
      "alone");
}

record::Disposition decided(const Matter& matter, const finding::Survey& survey,
                            const logbook::Writer& writer, const DecisionWords& words) {
  const auto& [deviation, id] = matter;
  const auto decision = record::read_word<record::Decision>(words.decision);
  auto reason = record::read_text(words.why, "--why", 1000);
  auto second_person = record::read_optional_text(words.second_person, "--with", 80);
  refuse_settled(matter);
  if (const auto why = audit::why_not(deviation, decision); !why.empty()) {
    throw failure::Refusal(fmt::format("{} cannot be settled as {}: {}", deviation.id,
                                       record::word_of(decision), why));
  }
  check_second_person(second_person, writer.by, deviation, survey);
  auto disposition = audit::disposition_about(deviation, id);
  // Dated before what it judges, the very work that was faulty would pass for what carried it out.
  refuse_before(
      deviation, disposition, writer.done_at, [](const audit::Part& part) { return part.newest; },
      "rests on", "a decision is made when that is known. Give its time with --at");
  disposition.decision = decision;
  disposition.reason = std::move(reason);
  disposition.second_person = std::move(second_person);
  return disposition;
}

// Of sources that disagree the one that holds from now on, for each specification that the joint's
// positions have.
std::vector<std::string> what_holds(const audit::Deviation& deviation,
                                    const finding::Survey& survey) {
  std::vector<std::string> remarks;
  const auto* joint = finding::joint_in(survey, deviation.joint);
  if (deviation.rule != audit::kSourcesDisagree.name || joint == nullptr) return remarks;
  const auto tell = [&](const record::Entry<record::Specified>& entry, const std::string& where) {
    auto remark = fmt::format(
        "{}: {} (line {}) holds from now on, the latest by when it was said; "
        "where another is meant, strike that line",
        where, record::write_exact(entry.content.procedure), entry.stamp.line);
    if (std::ranges::find(remarks, remark) == remarks.end()) remarks.push_back(std::move(remark));
  };
  if (deviation.positions.empty()) {
    tell(*joint->specifications.back(), joint->joint->code);
    return remarks;
  }
  for (const int position : deviation.positions) {
    const auto& own = joint->at(position).own_specifications;
    if (!own.empty()) tell(*own.back(), record::write_address(joint->joint->code, position));
  }
  return remarks;
}

// Everything of a rule in a joint ("found-low:J06") where the audit tells it in several deviations:
// of those that are to be decided the open ones, of those that are done the ones that wait for it;
// all where there are none of these, so that it is said of them why not.
std::vector<Matter> of_rule_in_joint(const audit::Audit& audit, const std::string& id,
                                     bool says_done) {
  std::vector<Matter> all;
  std::vector<Matter> meant;
  for (const auto& deviation : audit.deviations) {
    const auto whole = fmt::format("{}:{}", audit::dashed(deviation.rule), deviation.joint);
    if (deviation.joint.empty() || !record::same_deviation_id(whole, id)) continue;
    all.push_back({deviation, deviation.id});
    const bool is_meant = says_done ? audit::carried_out(deviation, deviation.id).has_value()
                                    : deviation.settled == nullptr;
    if (is_meant) meant.push_back(all.back());
  }
  return meant.empty() ? all : meant;
}

// The address behind the rule in an id. InputError where it is none, with the ids of that rule.
record::Address address_in(const audit::Audit& audit, const std::string& id, std::size_t colon) {
  try {
    return record::read_address(id.substr(colon + 1));
  } catch (const failure::InputError&) {
    std::vector<std::string> same_rule;
    for (const auto& deviation : audit.deviations) {
      if (record::same_deviation_id(audit::dashed(deviation.rule), id.substr(0, colon))) {
        same_rule.push_back(deviation.id);
      }
    }
    throw failure::InputError(fmt::format(
        "{}: expected an id as the audit shows it{}, or RULE:JOINT/POSITIONS", quantity::quoted(id),
        same_rule.empty() ? std::string(", such as found-low:J06/03")
                          : fmt::format(": {}", fmt::join(same_rule, ", "))));
  }
}

// What the id names; one of a rule at several positions ("found-undecided:J06/2,4") is one matter
// where they are told together, else each is one.
std::vector<Matter> named_by(const audit::Audit& audit, const std::string& id, bool says_done) {
  const auto colon = id.find(':');
  const bool has_positions = colon != std::string::npos && id.find('/', colon) != std::string::npos;
  if (!has_positions && audit::deviation_in(audit, id) == nullptr) {
    auto matters = of_rule_in_joint(audit, id, says_done);
    if (!matters.empty()) return matters;
  }
  if (!has_positions || audit::deviation_in(audit, id) != nullptr) {
    return {{deviation_or_refuse(audit, id), id}};
  }
  const auto address = address_in(audit, id, colon);
  std::vector<std::pair<const audit::Deviation*, std::vector<int>>> by_deviation;
  for (const int position : address.positions) {
    const auto* deviation = &deviation_or_refuse(
        audit,
        fmt::format("{}:{}", id.substr(0, colon), record::write_address(address.joint, position)));
    auto same =
        std::ranges::find(by_deviation, deviation, &decltype(by_deviation)::value_type::first);
    if (same == by_deviation.end()) same = by_deviation.insert(same, {deviation, {}});
    same->second.push_back(position);
  }
  std::vector<Matter> matters;
  for (const auto& [deviation, positions] : by_deviation) {
    auto some = audit::narrowed(*deviation, positions);
    if (some.parts.size() == 1) {
      matters.push_back({*deviation, some.parts.front().id});
    } else {
      const auto its_id = some.id;
      matters.push_back({std::move(some), its_id});
    }
  }
  return matters;
}

// All that the words name, each once.
std::vector<Matter> matters_in(const audit::Audit& audit, const std::vector<std::string>& ids,
                               bool says_done) {
  std::vector<Matter> matters;
  std::set<std::string> known;  // folded ids of the parts
  for (const auto& id : ids) {
    for (auto& matter : named_by(audit, id, says_done)) {
      const auto* alone = audit::part_in(matter.deviation, matter.id);
      for (const auto& part : matter.deviation.parts) {
        if (alone != nullptr && alone != &part) continue;
        if (known.insert(record::folded_deviation_id(part.id)).second) continue;
        throw failure::Refusal(fmt::format("{} is named twice; name each once", part.id));
      }
      matters.push_back(std::move(matter));
    }
  }
  return matters;
}

}  // namespace

Done settle(logbook::Logbook& logbook, const logbook::Writer& writer, const DecisionWords& words) {
  check_decision_words(words);
  logbook::Recording recording(logbook, writer);
  Done done;
  {
    const auto job = logbook.job();
    const auto survey = finding::survey(job);
    const auto audit = audit::run({job, survey, writer.done_at});
    for (const auto& matter : matters_in(audit, words.deviations, !words.done.empty())) {
      record::Disposition disposition;
      if (words.done.empty()) {
        disposition = decided(matter, survey, writer, words);
      } else {
        disposition = done_or_refuse(matter, writer.done_at);
        disposition.done = record::read_text(words.done, "--done", 1000);
      }
      done.lines.push_back({recording.append(disposition), words::line_text(disposition)});
      for (auto& remark : what_holds(matter.deviation, survey)) {
        done.remarks.push_back(std::move(remark));
      }
    }
  }
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  done.remarks.push_back(words::how_it_stands(audit::run({job, survey, writer.done_at})));
  recording.commit();
  return done;
}

}  // namespace act
