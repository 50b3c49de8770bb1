#include "cli/commands.h"

#include "cli/adapter.h"
#include "cli/audit.h"
#include "cli/backup.h"
#include "cli/bench.h"
#include "cli/bolt.h"
#include "cli/compare.h"
#include "cli/convert.h"
#include "cli/export.h"
#include "cli/fleet.h"
#include "cli/fluid.h"
#include "cli/found.h"
#include "cli/help_topic.h"
#include "cli/history.h"
#include "cli/hold_point.h"
#include "cli/import.h"
#include "cli/item.h"
#include "cli/joint.h"
#include "cli/labels.h"
#include "cli/merge.h"
#include "cli/out.h"
#include "cli/photo.h"
#include "cli/recheck.h"
#include "cli/renew.h"
#include "cli/report.h"
#include "cli/search.h"
#include "cli/sequence.h"
#include "cli/serve.h"
#include "cli/settle.h"
#include "cli/sheet.h"
#include "cli/show.h"
#include "cli/sign.h"
#include "cli/start.h"
#include "cli/status.h"
#include "cli/strike.h"
#include "cli/stripe.h"
#include "cli/tighten.h"
#include "cli/verify.h"
#include "cli/wrench.h"

namespace cli {

const std::vector<CommandPart>& command_parts() {
  static const std::vector<CommandPart> all = {
      {"How it stands",
       {{"status",
         "What is open, the next step, and how far each joint is; so does boltwitness alone",
         declare_status},
        {"show", "A joint on one screen, or all about one position", declare_show},
        {"compare", "Found torque against specification", declare_compare},
        {"audit",
         "What is not in order before reassembly; exit code 1 while a hold is open or something "
         "decided is not done",
         declare_audit},
        {"recheck", "Record a later look at final stripes; alone, what is due, overdue first",
         declare_recheck}}},
      {"To begin with",
       {{"start", "Start a logbook for one machine or one job on it", declare_start},
        {"wrench", "Enter a torque wrench, or its new calibration; alone, the list of them",
         declare_wrench},
        {"joint",
         "Enter a joint, or a further specification for one that is there; alone, the list",
         declare_joint},
        {"hold-point",
         "A safety gate before joints: enter, begin, pass, shut; alone, how each stands",
         declare_hold_point}}},
      {"Teardown",
       {{"bench",
         "Be guided through the teardown: single keys for how each came loose and each pull",
         declare_bench},
        {"out", "Record fasteners as they come out", declare_out},
        {"found", "Record a found-torque test: settings in rising order and where the mark stood",
         declare_found},
        {"fluid", "Record what was drained or filled; alone, what has to go back at least",
         declare_fluid},
        {"item", "Count clips, hoses and connectors off and back; alone, what is still missing",
         declare_item},
        {"photo",
         "Keep a photograph of the machine, a joint, positions or a deviation; alone, a list",
         declare_photo}}},
      {"Before it goes back",
       {{"settle",
         "Decide what becomes of a deviation; it is no hold any more until its evidence changes",
         declare_settle},
        {"renew", "What has to be bought new, by size, length and grade; and what has arrived",
         declare_renew}}},
      {"Reassembly",
       {{"sequence", "The order of reassembly: joints, positions, passes, wrench and setting",
         declare_sequence},
        {"tighten", "Record a pass over some positions, or be guided through the plan",
         declare_tighten},
        {"stripe", "Record the final stripe across fastener and part, after the final value",
         declare_stripe}}},
      {"At the machine",
       {{"serve", "Pages for a phone at the machine: teardown, look up, tighten, stripe",
         declare_serve}}},
      {"The lines themselves",
       {{"search", "Every line that holds these words, struck ones shown struck", declare_search},
        {"history", "Every line as it was entered, with its number, struck ones shown struck",
         declare_history},
        {"strike", "Strike a line that was wrong; it stays readable, struck", declare_strike},
        {"verify", "Whether any line was changed, taken out or put in, or cannot be read",
         declare_verify},
        {"sign", "Sign the log up to its last line with your own key, made on first use",
         declare_sign},
        {"backup",
         "Copy the logbook into a folder, verified, its date in its name; to go back to one: help "
         "copies",
         declare_backup},
        {"merge", "Put a copy of the logbook that somebody went on with into it", declare_merge},
        {"export", "Write the whole logbook as JSON, or one table of it for a spreadsheet (CSV)",
         declare_export},
        {"import", "Take in a table from a spreadsheet (CSV), or a whole logbook into a new file",
         declare_import}}},
      {"On paper",
       {{"sheet", "A blank teardown form to print, joint by joint with the map of its positions",
         declare_sheet},
        {"report", "The whole job to print: deviations, joints, wrenches, every line of the log",
         declare_report},
        {"labels", "Labels for bags to print, with a QR code of the address, one for each bag",
         declare_labels}}},
      {"Many machines",
       {{"fleet",
         "Many logbooks in PostgreSQL: load them, ask over all of them; alone, the questions",
         declare_fleet}}},
      {"Without a logbook",
       {{"convert", "Convert a torque between units", declare_convert},
        {"bolt",
         "What a torque does to a bolt: preload, share of proof and yield, the torques that make "
         "sense, its thread in a part, its seat, an angle, its own friction; needs no logbook",
         declare_bolt},
        {"adapter", "The wrench setting through a crowfoot or extension; needs no logbook",
         declare_adapter},
        {kHelpCommand, "Read about a topic, such as words; alone, what there is",
         declare_help_topic}}},
  };
  return all;
}

}  // namespace cli
