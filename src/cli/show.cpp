#include "cli/show.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "act/lookup.h"
#include "cli/entered_name.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/joint_lines.h"
#include "progress/open_list.h"
#include "progress/reassembly.h"
#include "quantity/number_text.h"
#include "record/concerns.h"
#include "screen/position_page.h"
#include "terminal/session.h"
#include "words/joint_in_short.h"

namespace cli {
namespace {

record::Address read_joint_or_position(const std::string& text) {
  auto address = record::read_address(text);
  if (address.positions.size() > 1) {
    throw failure::InputError(
        fmt::format("show {}: expected a joint or one position, such as {} "
                    "or {}",
                    quantity::quoted(text), address.joint,
                    record::write_address(address.joint, address.positions.front())));
  }
  return address;
}

void answer(const screen::JointPage& page_of, const record::Address& address,
            const terminal::Session& session) {
  if (address.positions.empty()) {
    if (session.json()) {
      session.out() << screen::joint_page_json(page_of);
    } else {
      session.answer_text(screen::joint_page_text(page_of, session.page()),
                          screen::joint_in_short(page_of, session.page()));
    }
    return;
  }
  auto lines =
      logbook::lines_of_joint(session.logbook_path(), address.joint, session.waiting());
  std::erase_if(lines, [&](const auto& line) { return !record::concerns(line.content, address); });
  const int position = address.positions.front();
  session.out() << (session.json()
                        ? screen::position_page_json(page_of, position, lines)
                        : screen::position_page_text(page_of, position, lines, session.page()));
}

}  // namespace

void declare_show(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ShowOptions>();
  auto* command = app.add_subcommand("show", "A joint on one screen, or all about one position");
  command->add_option("ADDRESS", options->address, "Which one, such as J06 or J06/3; else a list")
      ->option_text("JOINT[/POSITION]");
  command->add_flag("--whole", options->whole, "With no list cut");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return options->address.empty() ? list_joints(session, options->whole)
                                      : run_show(*options, session);
    };
  });
}

int run_show(const ShowOptions& options, const terminal::Session& session) {
  const auto address = read_joint_or_position(options.address);
  const auto logbook = session.open_to_read();
  std::optional<progress::Reassembly> now;
  std::optional<progress::SurveyedJob> entered;  // where the joints wait for each other
  std::string no_plan;
  std::string order_mend;
  try {
    now.emplace(logbook.job(), session.day());
  } catch (const plan::PlanCycle& cycle) {
    no_plan = cycle.circle();
    order_mend = cycle.mend();
    entered.emplace(logbook.job());
  }
  const progress::SurveyedJob& whole = now ? static_cast<progress::SurveyedJob&>(*now) : *entered;
  const auto& job = whole.job;
  const auto& survey = whole.survey;
  const auto& joint = *act::chosen_joints(survey, {address.joint}).front();
  if (!address.positions.empty()) act::check_positions(*joint.joint, address.positions);
  const auto* progress = now ? &now->progress : nullptr;
  const auto audit = audit::run_for_joint(
      {job, survey, session.done_at(), progress, no_plan, order_mend}, joint.joint->code);
  if (!order_mend.empty()) no_plan += ": boltwitness " + order_mend;
  std::string in_short;
  if (now) {
    const auto open = progress::open_list(*now, session.done_at());
    in_short = words::in_words(words::JointsInShort(*now, open, audit, session.day()).of(joint));
  }
  answer({job, joint, audit, progress, no_plan, in_short, options.whole}, address, session);
  return failure::kDone;
}

}  // namespace cli
