#include "cli/joint.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>

#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/label.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "fastener/grade.h"
#include "fastener/thread_text.h"
#include "finding/plausibility.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/specification_check.h"
#include "report/line_text.h"

namespace cli {
namespace {

// True where the command describes the fasteners and not only what is specified for them.
bool describes_joint(const JointOptions& options) {
  return !options.holds.empty() || !options.size.empty() || !options.length.empty() ||
         !options.grade.empty() || !options.count.empty() || !options.layout.empty() ||
         options.one_time || options.critical || !options.after.empty();
}

record::Joint joint_from(const JointOptions& options) {
  for (const auto& [value, name] :
       {std::pair{&options.holds, "--holds"}, std::pair{&options.size, "--size"},
        std::pair{&options.grade, "--grade"}, std::pair{&options.count, "--count"}}) {
    if (value->empty()) {
      throw UsageError(
          fmt::format("{} is new; {} is needed as well (see joint --help)", options.code, name));
    }
  }
  record::Joint joint;
  joint.code = record::read_joint_code(options.code);
  joint.holds = read_label(options.holds, "--holds");
  joint.size = fastener::write_exact(fastener::read_thread(options.size));
  if (!options.length.empty()) {
    joint.length = quantity::read_length(options.length);
    joint.length_typed = read_label(options.length, "--length");
  }
  joint.grade = read_grade_or_label(options.grade);
  joint.count = quantity::read_count(options.count, record::kMostPositions);
  if (!options.layout.empty()) {
    joint.layout = record::read_layout(options.layout);
  } else if (joint.count < 3) {
    joint.layout = record::LineLayout{};
  }
  record::check_count(joint.layout, joint.count);
  joint.one_time = options.one_time;
  joint.critical = options.critical;
  for (const auto& code : options.after) {
    joint.after.push_back(record::read_joint_code(code));
    const auto same = [&](const std::string& other) {
      return record::same_code(other, joint.after.back());
    };
    if (std::ranges::count_if(joint.after, same) > 1) {
      throw quantity::InputError(fmt::format("--after names {} twice", joint.after.back()));
    }
    if (record::same_code(joint.after.back(), joint.code)) {
      throw quantity::InputError(fmt::format("{} cannot come after itself", joint.code));
    }
  }
  return joint;
}

std::optional<record::Specified> specified_from(const JointOptions& options,
                                                const std::string& code) {
  if (options.spec.empty()) {
    if (!options.source.empty() || !options.condition.empty()) {
      throw UsageError("--source and --condition belong to a --spec; give that as well");
    }
    return std::nullopt;
  }
  record::Specified specified;
  specified.joint = code;
  specified.typed = read_label(options.spec, "--spec");
  specified.procedure = record::read_specification(specified.typed);
  record::check_specification(specified.procedure);
  specified.source = read_optional_label(options.source, "--source");
  if (!options.condition.empty()) {
    specified.condition = read_condition_or_refuse(options.condition);
  }
  return specified;
}

// Refusal for a specification that the fastener cannot carry or that clamps nothing, unless it is
// meant; a remark for what is only unusual.
void check_plausible(const record::Specified& specified, const record::Joint& joint, bool really,
                     const Session& session) {
  const auto found = finding::implausible(specified, joint);
  if (!found) return;
  if (finding::is_refused(found->plausibility) && !really) {
    throw Refusal(found->says +
                  ". Nothing was written; where the source does say so, add --really");
  }
  session.remark(found->says);
}

void remark_on(const record::Joint& joint, const Session& session) {
  if (const auto note = fastener::read_thread(joint.size).note()) session.remark(*note);
  if (!fastener::read_grade(joint.grade)) {
    session.remark(
        fmt::format("no strength is known for grade {}; the torque cannot be checked "
                    "against the fastener",
                    quantity::quoted(joint.grade)));
  }
}

}  // namespace

void declare_joint(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<JointOptions>();
  auto* command = app.add_subcommand(
      "joint", "Enter a joint, or a further specification for one that is there");
  command->add_option("CODE", options->code, "Its short code, such as J06 or case-split")
      ->required()
      ->option_text("CODE");
  command->add_option("--holds", options->holds, "The part it holds (a new joint needs it)")
      ->option_text("TEXT");
  command
      ->add_option("--size", options->size,
                   "Thread, such as M12x1.75 or 3/8-16 (a new joint needs it)")
      ->option_text("THREAD");
  command->add_option("--length", options->length, "Length under the head, such as 90mm")
      ->option_text("LENGTH");
  command
      ->add_option("--grade", options->grade,
                   "Property class or grade as marked, or unknown (a new joint needs it)")
      ->option_text("GRADE");
  command->add_option("--count", options->count, "Number of positions (a new joint needs it)")
      ->option_text("N");
  command
      ->add_option("--layout", options->layout,
                   "circle, line, \"rectangle 2x8\" (rows x columns) or \"at 0,0 40,0 ...\"")
      ->option_text("LAYOUT");
  command->add_flag("--one-time", options->one_time, "Fasteners that are renewed every time");
  command->add_flag("--critical", options->critical, "A second person has to agree");
  command->add_option("--after", options->after, "Joints that must be finished before this one")
      ->option_text("CODE ...");
  command
      ->add_option("--spec", options->spec,
                   "What the source asks for, such as \"40 N·m, 60 N·m, 80 N·m\"")
      ->option_text("STEPS");
  command->add_option("--source", options->source, "Document, revision and page")
      ->option_text("TEXT");
  command
      ->add_option("--condition", options->condition,
                   "dry, oiled, threadlocker, anti-seize or as-received (the default)")
      ->option_text("WORD");
  command->add_flag("--really", options->really,
                    "Enter a --spec that size and grade cannot carry, or that clamps nothing");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_joint(*options, session); };
  });
}

int run_joint(const JointOptions& options, const Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"joint", "specification"});
  const auto known = logbook.joint(record::read_joint_code(options.code));

  std::optional<record::Joint> joint;
  if (describes_joint(options) || !known) {
    if (known) {
      throw Refusal(
          fmt::format("{} is in the logbook already (line {}); to correct it add --replace {} "
                      "--why ..., to add "
                      "a specification give only --spec, --source and --condition",
                      known->content.code, known->stamp.line, known->stamp.line));
    }
    joint = joint_from(options);
  }
  const auto specified = specified_from(options, joint ? joint->code : known->content.code);
  if (!joint && !specified) {
    throw UsageError(fmt::format("nothing to enter for {}; give --spec", options.code));
  }
  if (specified) {
    check_plausible(*specified, joint ? *joint : known->content, options.really, session);
  }

  std::vector<report::WrittenLine> written;
  if (joint) written.push_back({recording.append(*joint), report::line_text(*joint)});
  if (specified) written.push_back({recording.append(*specified), report::line_text(*specified)});
  recording.commit();
  session.recorded(written);
  if (joint) remark_on(*joint, session);
  return kDone;
}

}  // namespace cli
