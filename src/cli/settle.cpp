#include "cli/settle.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "audit/settlement.h"
#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/person.h"
#include "record/typed_text.h"
#include "terminal/session.h"
#include "words/line_text.h"
#include "words/text.h"

namespace cli {
namespace {

const audit::Deviation& named_or_refuse(const audit::Audit& audit, const std::string& id) {
  const auto* deviation = audit::deviation_in(audit, id);
  if (deviation == nullptr) {
    std::vector<std::string> known;
    for (const auto& each : audit.deviations) known.push_back(each.id);
    throw failure::Refusal(
        fmt::format("the audit names no {} (\"boltwitness audit --all\" shows what it names){}",
                    quantity::quoted(id), suggestion(id, known)));
  }
  return *deviation;
}

const audit::Deviation& open_or_refuse(const audit::Audit& audit, const std::string& id) {
  const auto* deviation = &named_or_refuse(audit, id);
  const auto* part = audit::part_in(*deviation, id);
  if (const auto* settled = part == nullptr ? deviation->settled : part->settled) {
    throw failure::Refusal(fmt::format(
        "{} is settled already: {} by {} in line {}. To decide anew, strike that line first: "
        "strike {} --why ...",
        part == nullptr ? deviation->id : part->id, record::word_of(settled->content.decision),
        settled->stamp.by, settled->stamp.line, settled->stamp.line));
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

// What was decided has been done: the decision once more, with the words that say what was done.
record::Disposition done_or_refuse(const audit::Audit& audit, const std::string& id) {
  const auto& deviation = named_or_refuse(audit, id);
  auto disposition = audit::carried_out(deviation, id);
  if (!disposition) {
    throw failure::Refusal(fmt::format(
        "no repair and no correction of the record that was decided about {} is still to be done; "
        "a re-torque is done by the tightening, a renewal by the new fastener that goes in",
        deviation.id));
  }
  return *disposition;
}

void check_words(const SettleOptions& options) {
  const bool decides = !options.decision.empty() && !options.why.empty();
  const bool says_done = !options.done.empty() && options.decision.empty() && options.why.empty();
  if ((decides && options.done.empty()) || says_done) return;
  throw failure::UsageError(
      "settle needs --as DECISION with --why TEXT; or, once what was decided is done, --done TEXT "
      "alone");
}

// How many holds are open once this is settled.
std::size_t holds_left(const audit::Audit& audit, const audit::Deviation& deviation,
                       const record::Disposition& disposition) {
  const auto open = std::ranges::count_if(
      deviation.parts, [](const audit::Part& part) { return part.settled == nullptr; });
  const bool settles_it = deviation.level == audit::Level::Hold && open > 0 &&
                          disposition.parts.size() == static_cast<std::size_t>(open);
  return audit.open(audit::Level::Hold) - (settles_it ? 1U : 0U);
}

}  // namespace

void declare_settle(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<SettleOptions>();
  auto* command = app.add_subcommand(
      "settle",
      "Decide what becomes of a deviation; it is no hold any more until its evidence "
      "changes");
  command->add_option("ID", options->deviation, "As the audit shows it, such as found-low:J06/03")
      ->required()
      ->option_text("ID");
  command
      ->add_option("--as", options->decision,
                   "use-as-is, re-torque, renew, repair, or correct-record")
      ->option_text("DECISION");
  command->add_option("--why", options->why, "What it was decided on")->option_text("TEXT");
  command
      ->add_option("--done", options->done,
                   "What was done: closes a repair or a correction of the record")
      ->option_text("TEXT");
  command
      ->add_option("--with", options->second_person,
                   "A second person who agrees; a critical joint needs one")
      ->option_text("WHO");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_settle(*options, session);
    };
  });
}

int run_settle(const SettleOptions& options, const terminal::Session& session) {
  check_words(options);
  record::Disposition typed;
  if (options.done.empty()) {
    typed.decision = record::read_word<record::Decision>(options.decision);
    typed.reason = record::read_label(options.why, "--why", 1000);
    typed.second_person = record::read_optional_label(options.second_person, "--with", 80);
  } else {
    typed.done = record::read_label(options.done, "--done", 1000);
  }
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  const auto audit = audit::run({job, survey, session.done_at()});
  const auto& deviation = typed.done.empty() ? open_or_refuse(audit, options.deviation)
                                             : named_or_refuse(audit, options.deviation);
  record::Disposition disposition;
  if (typed.done.empty()) {
    check_second_person(typed.second_person, writer.by, deviation, survey);
    disposition = audit::disposition_about(deviation, options.deviation);
    disposition.decision = typed.decision;
    disposition.reason = typed.reason;
    disposition.second_person = typed.second_person;
  } else {
    disposition = done_or_refuse(audit, options.deviation);
    disposition.done = typed.done;
  }
  const auto stamp = recording.append(disposition);
  recording.commit();
  session.recorded({{stamp, words::line_text(disposition)}});
  const auto left = holds_left(audit, deviation, disposition);
  session.remark(left == 0 ? std::string("no hold is open")
                           : fmt::format("{} still open", words::counted(left, "hold")));
  return failure::kDone;
}

}  // namespace cli
