#include "act/decision_entry.h"

#include <fmt/format.h>

#include "act/lookup.h"
#include "audit/settlement.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/person.h"
#include "record/typed_text.h"
#include "words/line_text.h"
#include "words/text.h"

namespace act {
namespace {

const audit::Deviation& deviation_or_refuse(const audit::Audit& audit, const std::string& id) {
  const auto* deviation = audit::deviation_in(audit, id);
  if (deviation == nullptr) {
    std::vector<std::string> known;
    for (const auto& each : audit.deviations) known.push_back(each.id);
    throw failure::Refusal(
        fmt::format("the audit names no {} (\"boltwitness audit --all\" shows what it names){}",
                    quantity::quoted(id), suggestion(id, known)));
  }
  if (const auto* settled = deviation->settled) {
    throw failure::Refusal(fmt::format(
        "{} is settled already: {} by {} in line {}. To decide anew, strike that line first: "
        "strike {} --why ...",
        deviation->id, record::word_of(settled->content.decision), settled->stamp.by,
        settled->stamp.line, settled->stamp.line));
  }
  return *deviation;
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

}  // namespace

Done settle(logbook::Logbook& logbook, const logbook::Writer& writer, const DecisionWords& words) {
  record::Disposition disposition;
  disposition.decision = record::read_word<record::Decision>(words.decision);
  disposition.reason = record::read_label(words.why, "--why", 1000);
  disposition.second_person = record::read_optional_label(words.second_person, "--with", 80);
  logbook::Recording recording(logbook, writer);
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  const auto audit = audit::run({job, survey, writer.done_at});
  const auto& deviation = deviation_or_refuse(audit, words.deviation);
  check_second_person(disposition.second_person, writer.by, deviation, survey);
  disposition.deviation = deviation.id;
  disposition.rule = deviation.rule;
  disposition.joint = deviation.joint;
  disposition.position = deviation.position;
  disposition.evidence = deviation.evidence;
  disposition.judged_on = deviation.says;
  auto stamp = recording.append(disposition);
  recording.commit();
  const auto left =
      audit.open(audit::Level::Hold) - (deviation.level == audit::Level::Hold ? 1U : 0U);
  return {{{std::move(stamp), words::line_text(disposition)}},
          {left == 0 ? std::string("no hold is open")
                     : fmt::format("{} still open", words::counted(left, "hold"))}};
}

}  // namespace act
