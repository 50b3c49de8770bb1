#include "cli/compare.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>

#include "act/chosen_joints.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "screen/compare_answer.h"
#include "screen/compare_overview.h"
#include "screen/drift_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

// The other logbook's job; that file is left as it is.
record::Job job_of_other(const std::string& path, const std::string& own,
                         logbook::Waiting& waiting) {
  std::error_code problem;
  if (std::filesystem::equivalent(path, own, problem)) {
    throw failure::Refusal(
        fmt::format("--with {}: that is this logbook itself; name the other teardown's",
                    quantity::quoted(path)));
  }
  return logbook::Logbook::open_unchanged(path, waiting).job();
}

// The same with no list cut; empty where that was asked for.
std::string whole_of(const CompareOptions& options) {
  if (options.whole) return {};
  std::string command = "compare";
  for (const auto& joint : options.joints) command += ' ' + joint;
  if (!options.other.empty()) command += " --with " + quantity::quoted(options.other);
  return command + (options.all_units ? " --all-units" : "") + " --whole";
}

}  // namespace

void declare_compare(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<CompareOptions>();
  command.add_option("JOINT", options->joints, "These joints, one after the other")
      ->option_text("JOINT ...");
  auto* all_units =
      command.add_flag("--all-units", options->all_units, "N·m, ft·lbf and in·lbf side by side");
  command.add_flag("--whole", options->whole, "With no list cut");
  command
      .add_option("--with", options->other,
                  "Another logbook of the same kind of machine: how far found torque has drifted "
                  "between the two")
      ->option_text("FILE")
      ->excludes(all_units);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_compare(*options, session);
    };
  });
}

int run_compare(const CompareOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  // Beside another logbook it is also told what one of them has and the other has not.
  const auto job = options.other.empty() ? act::job_about(logbook, options.joints) : logbook.job();
  const auto survey = finding::survey(job);
  const auto joints = act::chosen_joints(survey, options.joints);
  if (!options.other.empty()) {
    const auto other = job_of_other(options.other, logbook.path(), session.waiting());
    const auto other_survey = finding::survey(other);
    const auto drift = finding::drift(survey, other_survey);
    const screen::DriftPage page_of{drift, job.start, other.start, options.joints,
                                    whole_of(options)};
    if (session.json()) {
      session.out() << screen::drift_json(page_of);
    } else {
      session.answer_text(screen::drift_text(page_of, session.page()),
                          screen::drift_in_short(page_of, session.page()));
    }
    return failure::kDone;
  }
  const bool is_overview = options.joints.empty() && !options.all_units;
  session.out() << (session.json() ? screen::compare_json(joints)
                    : is_overview
                        ? screen::compare_overview(job, joints, options.whole, session.page())
                        : screen::compare_text(joints, options.all_units, whole_of(options),
                                               session.page()));
  return failure::kDone;
}

}  // namespace cli
