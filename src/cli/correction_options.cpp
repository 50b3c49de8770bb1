#include "cli/correction_options.h"

#include <CLI/CLI.hpp>

namespace cli {
namespace {

constexpr const char* kCorrectionGroup = "To correct a line";

}  // namespace

void declare_correction(CLI::App& command, act::Correction& correction) {
  auto* replace = command.add_option("--replace", correction.replaced_line,
                                     "Strike this earlier line, which was wrong, and enter this in "
                                     "its place; what is not said anew is kept");
  replace->option_text("LINE")->group(kCorrectionGroup);
  auto* why = command.add_option("--why", correction.why, "What was wrong with it");
  why->option_text("TEXT")->group(kCorrectionGroup);
  replace->needs(why);
  why->needs(replace);
  command
      .add_option("--without", correction.without,
                  "What that line said and this one does not say any more, by its option, such as "
                  "note")
      ->option_text("OPTION ...")
      ->group(kCorrectionGroup)
      ->delimiter(',')
      ->allow_extra_args(false)
      ->needs(replace);
}

}  // namespace cli
