#include "cli/joint.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>

#include "cli/lookup.h"
#include "cli/option_error.h"
#include "cli/pending.h"
#include "cli/shrunk_joint.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "fastener/grade.h"
#include "fastener/thread_text.h"
#include "finding/plausibility.h"
#include "plan/pass_rule.h"
#include "plan/position_order.h"
#include "quantity/ascii.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/specification_check.h"
#include "record/typed_text.h"
#include "terminal/session.h"
#include "words/line_text.h"
#include "words/written_line.h"

namespace cli {

bool describes_joint(const JointOptions& options) {
  return !options.holds.empty() || !options.size.empty() || !options.length.empty() ||
         !options.grade.empty() || !options.count.empty() || !options.layout.empty() ||
         options.one_time || options.critical || !options.after.empty() ||
         !options.covers.empty() || options.bench || !options.final_when.empty() ||
         !options.order.empty() || !options.passes.empty() || !options.rechecks.empty();
}

namespace {

// The codes given to --after or --covers, each once and none of them the joint itself.
std::vector<std::string> other_joints(const std::vector<std::string>& typed,
                                      std::string_view option, const std::string& code) {
  std::vector<std::string> codes;
  for (const auto& each : typed) {
    const auto other = record::read_joint_code(each);
    const auto same = [&](const std::string& known) { return record::same_code(known, other); };
    if (std::ranges::any_of(codes, same)) {
      throw failure::InputError(fmt::format("{} names {} twice", option, other));
    }
    if (same(code)) {
      throw failure::InputError(option == "--covers"
                                    ? fmt::format("{} cannot cover itself", code)
                                    : fmt::format("{} cannot come after itself", code));
    }
    codes.push_back(other);
  }
  return codes;
}

// What the final value waits for; the plan itself says "when" before it.
std::string final_when_from(const std::string& typed) {
  auto text = record::read_optional_label(typed, "--final-when");
  constexpr std::string_view kWhen = "when ";
  if (quantity::starts_with_in_any_case(text, kWhen)) text.erase(0, kWhen.size());
  return text;
}

// A maker's order in one form, or a published pattern's name, either checked against the joint.
std::string order_from(const std::string& typed, record::Joint joint) {
  joint.order = quantity::trimmed(typed);
  if (joint.order.empty()) return {};
  const auto order = plan::position_order(joint);
  return quantity::is_letter(joint.order.front())
             ? joint.order
             : fmt::format("{}", fmt::join(order.positions, ","));
}

// As typed, else what is usual for so many positions.
record::Layout layout_from(const std::string& typed, int count) {
  record::Layout layout = record::CircleLayout{};
  if (!typed.empty()) {
    layout = record::read_layout(typed);
  } else if (count < 3) {
    layout = record::LineLayout{};
  }
  record::check_count(layout, count);
  return layout;
}

std::vector<record::RecheckInterval> rechecks_from(const std::vector<std::string>& typed) {
  std::vector<record::RecheckInterval> intervals;
  for (const auto& each : typed) {
    const auto interval = record::read_recheck_interval(each);
    if (std::ranges::find(intervals, interval) != intervals.end()) {
      throw failure::InputError(
          fmt::format("--recheck names {} twice", record::write_exact(interval)));
    }
    intervals.push_back(interval);
  }
  return intervals;
}

}  // namespace

record::Joint joint_from(const JointOptions& options, const std::string& code) {
  for (const auto& [value, name] :
       {std::pair{&options.holds, "--holds"}, std::pair{&options.size, "--size"},
        std::pair{&options.grade, "--grade"}, std::pair{&options.count, "--count"}}) {
    if (value->empty()) {
      throw OptionError(
          name, fmt::format("{} is new; {} is needed as well (see joint --help)", code, name));
    }
  }
  record::Joint joint;
  joint.code = code;
  joint.holds = of_option("--holds", [&] { return record::read_label(options.holds, "--holds"); });
  joint.size = of_option(
      "--size", [&] { return fastener::write_exact(fastener::read_thread(options.size)); });
  if (!options.length.empty()) {
    joint.length = of_option("--length", [&] { return quantity::read_length(options.length); });
    joint.length_typed = record::read_label(options.length, "--length");
  }
  joint.grade = of_option("--grade", [&] { return record::read_grade_or_label(options.grade); });
  joint.count = of_option(
      "--count", [&] { return quantity::read_count(options.count, record::kMostPositions); });
  joint.layout = of_option("--layout", [&] { return layout_from(options.layout, joint.count); });
  joint.one_time = options.one_time;
  joint.critical = options.critical;
  joint.after =
      of_option("--after", [&] { return other_joints(options.after, "--after", joint.code); });
  joint.covers =
      of_option("--covers", [&] { return other_joints(options.covers, "--covers", joint.code); });
  joint.bench = options.bench;
  joint.final_when = of_option("--final-when", [&] { return final_when_from(options.final_when); });
  joint.order = of_option("--order", [&] { return order_from(options.order, joint); });
  if (!options.passes.empty()) {
    joint.passes =
        of_option("--passes", [&] { return plan::pass_rule_named(options.passes).name; });
  }
  joint.rechecks = of_option("--recheck", [&] { return rechecks_from(options.rechecks); });
  return joint;
}

std::optional<record::Specified> specified_from(const JointOptions& options,
                                                const std::string& code,
                                                const std::vector<int>& positions) {
  if (options.spec.empty()) {
    if (!options.source.empty() || !options.condition.empty()) {
      throw OptionError("--spec", "--source and --condition belong to a --spec; give that as well");
    }
    return std::nullopt;
  }
  record::Specified specified;
  specified.joint = code;
  specified.positions = positions;
  specified.typed = of_option("--spec", [&] { return record::read_label(options.spec, "--spec"); });
  specified.procedure = of_option("--spec", [&] {
    auto procedure = record::read_specification(specified.typed);
    record::check_specification(procedure);
    return procedure;
  });
  specified.source = of_option(
      "--source", [&] { return record::read_optional_label(options.source, "--source"); });
  if (!options.condition.empty()) {
    specified.condition = of_option(
        "--condition", [&] { return record::read_condition_or_refuse(options.condition); });
  }
  return specified;
}

namespace {

// Positions stand behind the code only for a specification of their own.
void check_positions_alone(const JointOptions& options, const record::Address& address) {
  if (!describes_joint(options) && !options.spec.empty()) return;
  throw failure::UsageError(
      fmt::format("{}: positions are named only to give them a --spec of their own; the joint "
                  "itself is entered as {}",
                  options.code, address.joint));
}

// Refusal for a specification that the fastener cannot carry or that clamps nothing, unless it is
// meant; a remark for what is only unusual.
void check_plausible(const record::Specified& specified, const record::Joint& joint, bool really,
                     const terminal::Session& session) {
  const auto found = finding::implausible(specified, joint);
  if (!found) return;
  if (finding::is_refused(found->plausibility) && !really) {
    throw failure::Refusal(found->says +
                           ". Nothing was written; where the source does say so, add --really");
  }
  session.remark(found->says);
}

void remark_on(const record::Joint& joint, const terminal::Session& session) {
  if (const auto note = fastener::read_thread(joint.size).note()) session.remark(*note);
  if (!joint.passes.empty()) {
    const auto& rule = plan::pass_rule_named(joint.passes);
    if (!rule.is_stated_for(joint.count)) {
      session.remark(fmt::format("the source of {} states it for another count ({}) than {}",
                                 rule.name, rule.use, joint.count));
    }
  }
  if (!fastener::read_grade(joint.grade)) {
    session.remark(
        fmt::format("no strength is known for grade {}; the torque cannot be checked "
                    "against the fastener",
                    quantity::quoted(joint.grade)));
  }
}

// What the joint that was current until now loses by this one; the rest of the job as it is after
// the strike.
ShrunkJoint what_is_lost(const record::Job& before, const record::Joint& joint,
                         const logbook::Logbook& logbook) {
  const auto* until_now = record::joint_in(before, joint.code);
  if (until_now == nullptr || until_now->count <= joint.count) return {};
  return shrunk(*until_now, joint, logbook.job_of(joint.code));
}

// No condition counts as received; where one was given until now, that is a change nobody typed.
void remark_on_condition(const record::Specified& specified, const record::Job& before,
                         const terminal::Session& session) {
  const record::Entry<record::Specified>* until_now = nullptr;
  for (const auto& entry : before.specifications) {
    const bool is_of_these =
        entry.content.positions.empty() || entry.content.positions == specified.positions;
    if (record::same_code(entry.content.joint, specified.joint) && is_of_these) until_now = &entry;
  }
  if (until_now == nullptr || until_now->content.condition == specified.condition) return;
  const auto condition = fastener::name_of(until_now->content.condition);
  session.remark(fmt::format(
      "no --condition was given, so {} is taken as {}; line {} said {}: where that still holds, "
      "replace this line by one with --condition {}",
      specified.joint, fastener::name_of(specified.condition), until_now->stamp.line, condition,
      condition));
}

}  // namespace

void declare_joint(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<JointOptions>();
  auto* command = app.add_subcommand(
      "joint", "Enter a joint, or a further specification for one that is there");
  command
      ->add_option("CODE", options->code,
                   "Its short code, such as J06 or case-split; J06/1-4 for a --spec that holds for "
                   "these positions alone")
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
      ->add_option("--covers", options->covers,
                   "Joints that nobody can reach any more once this one is closed")
      ->option_text("CODE ...");
  command->add_flag("--bench", options->bench,
                    "Put together on the bench, before the rest of the machine");
  command
      ->add_option("--final-when", options->final_when,
                   "Snug at its turn, its final value when this is so, such as \"the box is "
                   "loaded\"")
      ->option_text("TEXT");
  command
      ->add_option("--order", options->order,
                   "The maker's order of the positions, such as 1,3,2,4, or a published one: "
                   "army-circular, army-straight")
      ->option_text("ORDER");
  command
      ->add_option("--passes", options->passes,
                   "The pass rule for a single torque, such as three-rounds; the README lists them")
      ->option_text("RULE");
  command
      ->add_option("--recheck", options->rechecks,
                   "When to look at it again: \"7 days\", \"50 running h\", \"500 km\"")
      ->option_text("INTERVAL ...");
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
                    "Enter a --spec that size and grade cannot carry or that clamps nothing, or a "
                    "--count that leaves lines without their position");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_joint(*options, session);
    };
  });
}

int run_joint(const JointOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  const auto address = record::read_address(options.code);
  const auto before = logbook.job_of(address.joint);
  strike_replaced(logbook, recording, options.correction, {"joint", "specification"});
  const auto known = logbook.joint(address.joint);
  if (!address.positions.empty()) {
    check_positions_alone(options, address);
    check_positions(joint_or_refuse(logbook, address.joint).content, address.positions);
  }

  std::optional<record::Joint> joint;
  if (describes_joint(options) || !known) {
    if (known) {
      throw failure::Refusal(
          fmt::format("{} is in the logbook already (line {}); to correct it add --replace {} "
                      "--why ..., to add "
                      "a specification give only --spec, --source and --condition",
                      known->content.code, known->stamp.line, known->stamp.line));
    }
    joint = joint_from(options, address.joint);
  }
  const auto specified =
      specified_from(options, joint ? joint->code : known->content.code, address.positions);
  if (!joint && !specified) {
    throw failure::UsageError(fmt::format("nothing to enter for {}; give --spec", options.code));
  }
  if (specified) {
    check_plausible(*specified, joint ? *joint : known->content, options.really, session);
  }

  const auto loss = joint ? what_is_lost(before, *joint, logbook) : ShrunkJoint{};
  if (loss.leaves_strays && !options.really) {
    throw failure::Refusal(loss.text + ". Nothing was written; where it is so, add --really");
  }

  std::vector<words::WrittenLine> written;
  if (joint) written.push_back({recording.append(*joint), words::line_text(*joint)});
  if (specified) written.push_back({recording.append(*specified), words::line_text(*specified)});
  recording.commit();
  session.recorded(written);
  if (!loss.text.empty()) session.remark(loss.text);
  if (joint) remark_on(*joint, session);
  if (specified && options.condition.empty()) remark_on_condition(*specified, before, session);
  return failure::kDone;
}

}  // namespace cli
