#include "cli/show.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "act/lookup.h"
#include "act/outlook.h"
#include "cli/entered_name.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/concerns.h"
#include "screen/position_page.h"
#include "terminal/session.h"

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
            const logbook::Logbook& logbook, const terminal::Session& session) {
  if (address.positions.empty()) {
    if (session.json()) {
      session.out() << screen::joint_page_json(page_of);
    } else {
      session.answer_text(screen::joint_page_text(page_of, session.page()),
                          screen::joint_in_short(page_of, session.page()));
    }
    return;
  }
  auto lines = logbook.history_of(address.joint);
  std::erase_if(lines, [&](const auto& line) { return !record::concerns(line.content, address); });
  const int position = address.positions.front();
  session.out() << (session.json()
                        ? screen::position_page_json(page_of, position, lines)
                        : screen::position_page_text(page_of, position, lines, session.page()));
}

}  // namespace

void declare_show(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ShowOptions>();
  command.add_option("JOINT[/POSITION]", options->address,
                     "Which one, such as J06 or J06/3; else a list");
  command.add_flag("--whole", options->whole, "With no list cut");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return options->address.empty() ? list_joints(session, options->whole)
                                      : run_show(*options, session);
    };
  });
}

int run_show(const ShowOptions& options, const terminal::Session& session) {
  const auto address = read_joint_or_position(options.address);
  const auto logbook = session.open_to_read();
  const act::Outlook outlook(logbook, session.done_at());
  const auto& joint = *act::chosen_joints(outlook.entered().survey, {address.joint}).front();
  if (!address.positions.empty()) act::check_positions(*joint.joint, address.positions);
  const auto audit = audit::run_for_joint(outlook.subject(), joint.joint->code);
  answer({outlook.entered().job, joint, audit, outlook.progress(), act::why_no_plan(outlook),
          act::joint_in_short(outlook, joint, audit), options.whole},
         address, logbook, session);
  return failure::kDone;
}

}  // namespace cli
