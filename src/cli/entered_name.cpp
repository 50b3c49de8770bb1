#include "cli/entered_name.h"

#include <CLI/CLI.hpp>

#include "failure/exit_code.h"
#include "screen/entered_list.h"
#include "terminal/session.h"

namespace cli {

void name_first(CLI::App& command, CLI::Option& name) {
  for (auto* option : command.get_options()) {
    if (option != &name && option != command.get_help_ptr()) option->needs(&name);
  }
}

int list_joints(const terminal::Session& session, bool whole) {
  const auto job = session.open_to_read().job();
  const auto survey = finding::survey(job);
  session.out() << (session.json() ? screen::joint_list_json(survey)
                                   : screen::joint_list_text(survey, whole, session.page()));
  return failure::kDone;
}

}  // namespace cli
