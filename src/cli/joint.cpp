#include "cli/joint.h"

#include <CLI/CLI.hpp>

#include "cli/bolt_checks.h"
#include "cli/correction_options.h"
#include "cli/entered_name.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "terminal/session.h"

namespace cli {

void declare_joint(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::JointWords>();
  auto* code = command.add_option(
      "CODE", options->code,
      "Its short code, such as J06 or case-split; J06/1-4 for a --spec that holds for these "
      "positions alone");
  command.option_defaults()->group("What it is");
  command.add_option("--holds", options->holds, "The part it holds (a new joint needs it)")
      ->option_text("TEXT");
  command
      .add_option("--size", options->size,
                  "Thread, such as M12x1.75 or 3/8-16 (a new joint needs it)")
      ->option_text("THREAD");
  command.add_option("--length", options->length, "Length under the head, such as 90mm")
      ->option_text("LENGTH");
  command
      .add_option("--grade", options->grade,
                  "Property class or grade as marked, or unknown (a new joint needs it)")
      ->option_text("GRADE");
  command.add_flag("--one-time", options->one_time, "Fasteners that are renewed every time");
  command.add_flag("--critical", options->critical, "A second person has to agree");
  command.add_flag("--live-load", options->live_load,
                   "Slackening it while the machine stands may let a load go; it is never tested");
  command.option_defaults()->group("How its fasteners lie");
  command.add_option("--count", options->count, "Number of positions (a new joint needs it)")
      ->option_text("N");
  command
      .add_option("--layout", options->layout,
                  "circle, line, \"rectangle 2x8\" (rows x columns) or \"at 0,0 40,0 ...\"")
      ->option_text("LAYOUT");
  command.option_defaults()->group("How it is tightened and looked at again");
  command
      .add_option("--spec", options->spec,
                  "What the source asks for, such as \"40 N·m, 60 N·m, 80 N·m\"")
      ->option_text("STEPS");
  command.add_option("--source", options->source, "Document, revision and page")
      ->option_text("TEXT");
  command
      .add_option("--condition", options->condition,
                  "dry, oiled, threadlocker, anti-seize or as-received (the default)")
      ->option_text("WORD");
  command
      .add_option("--passes", options->passes,
                  "The pass rule for a single torque, such as three-rounds; help passes lists them")
      ->option_text("RULE");
  command
      .add_option(
          "--recheck", options->rechecks,
          "When to look at it again, once: \"7 days\", \"50 running h\", \"500 km\"; \"every 7 "
          "days\" repeats")
      ->option_text("INTERVAL ...");
  command.option_defaults()->group("Order");
  command.add_option("--after", options->after, "Joints that must be finished before this one")
      ->option_text("CODE ...");
  command
      .add_option("--covers", options->covers,
                  "Joints that nobody can reach any more once this one is closed")
      ->option_text("CODE ...");
  command.add_flag("--bench", options->bench,
                   "Put together on the bench, before the rest of the machine");
  command
      .add_option("--final-when", options->final_when,
                  "Snug at its turn, its final value when this is so, such as \"the box is "
                  "loaded\"")
      ->option_text("TEXT");
  command
      .add_option("--order", options->order,
                  "The maker's order of the positions, such as 1,3,2,4, or a published one: "
                  "army-circular, army-straight")
      ->option_text("ORDER");
  command.option_defaults()->group(kScrewedIntoGroup);
  command
      .add_option("--into", options->into,
                  "Material that its thread is screwed into, such as \"EN AC-46000\", GJL-250 or "
                  "\"aluminium 240 MPa\"; none for a nut")
      ->option_text("MATERIAL");
  command.add_option("--engaged", options->engaged, "Length of thread engaged in it")
      ->option_text("LENGTH");
  command.option_defaults()->group(kUnderHeadGroup);
  command.add_option("--seat", options->seat, "Material that the turned head or nut bears on")
      ->option_text("MATERIAL");
  command
      .add_option("--face", options->face,
                  "Outer diameter on which it bears, of a flange or a thick washer; else that of a "
                  "plain hexagon")
      ->option_text("LENGTH");
  command.option_defaults()->group("Where it is doubted");
  command.add_flag("--really", options->really,
                   "Enter a --spec that size and grade cannot carry or that clamps nothing, or a "
                   "--count that leaves lines without their position, or a CODE "
                   "that another has but for noughts");
  declare_correction(command, options->correction);
  name_first(command, *code);
  auto whole = std::make_shared<bool>(false);
  command.add_flag("--whole", *whole, "The list, not cut")->excludes(code)->group(kListGroup);
  command.callback([options, whole, &pending] {
    pending.run = [options, whole](const terminal::Session& session) {
      return options->code.empty() ? list_joints(session, *whole) : run_joint(*options, session);
    };
  });
}

int run_joint(const act::JointWords& words, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  session.tell(act::enter_joint(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
