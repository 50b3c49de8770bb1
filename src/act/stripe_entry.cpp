#include "act/stripe_entry.h"

#include <fmt/format.h>

#include "act/look_entry.h"
#include "act/lookup.h"
#include "failure/failure.h"
#include "progress/reassembly.h"
#include "record/address.h"
#include "words/line_text.h"

namespace act {
namespace {

void refuse_before_final_value(const progress::Progress& progress, const std::string& joint,
                               const std::vector<int>& positions) {
  std::vector<int> open;
  for (const int position : positions) {
    if (!progress.has_final_value(joint, position)) open.push_back(position);
  }
  if (open.empty()) return;
  throw failure::Refusal(
      fmt::format("{} {} not reached the final value; the stripe says it has. \"boltwitness "
                  "tighten {}\" goes "
                  "on with it",
                  record::write_address(joint, open), open.size() == 1 ? "has" : "have", joint));
}

}  // namespace

Done draw_stripe(logbook::Logbook& logbook, const logbook::Writer& writer,
                 const StripeWords& words) {
  auto address = record::read_address(words.address);
  record::FinalStripe stripe;
  stripe.counter = counter_from(words.counter);
  stripe.teardown_mark_wiped = words.wiped;
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, words.correction, {"stripe"});
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  stripe.joint = joint.code;
  stripe.positions = std::move(address.positions);
  const progress::Reassembly now(logbook.job(), record::local_day(writer.done_at));
  refuse_before_final_value(now.progress, stripe.joint, stripe.positions);
  Done done{{{recording.append(stripe), words::line_text(stripe)}}, {}};
  recording.commit();
  if (!stripe.teardown_mark_wiped) {
    done.remarks.emplace_back(
        "two marks stand on these now; wipe the teardown mark before it is taken for "
        "the final one");
  }
  return done;
}

}  // namespace act
