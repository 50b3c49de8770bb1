#include "cli/settle.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

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
      ->required()
      ->option_text("DECISION");
  command->add_option("--why", options->why, "What it was decided on")
      ->required()
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
  record::Disposition disposition;
  disposition.decision = record::read_word<record::Decision>(options.decision);
  disposition.reason = record::read_label(options.why, "--why", 1000);
  disposition.second_person = record::read_optional_label(options.second_person, "--with", 80);
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  const auto audit = audit::run({job, survey, session.done_at()});
  const auto& deviation = deviation_or_refuse(audit, options.deviation);
  check_second_person(disposition.second_person, writer.by, deviation, survey);
  disposition.deviation = deviation.id;
  disposition.rule = deviation.rule;
  disposition.joint = deviation.joint;
  disposition.position = deviation.position;
  disposition.evidence = deviation.evidence;
  disposition.judged_on = deviation.says;
  const auto stamp = recording.append(disposition);
  recording.commit();
  session.recorded({{stamp, words::line_text(disposition)}});
  const auto left =
      audit.open(audit::Level::Hold) - (deviation.level == audit::Level::Hold ? 1U : 0U);
  session.remark(left == 0 ? std::string("no hold is open")
                           : fmt::format("{} still open", words::counted(left, "hold")));
  return failure::kDone;
}

}  // namespace cli
