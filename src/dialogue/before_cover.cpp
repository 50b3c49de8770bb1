#include "dialogue/before_cover.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/look_entry.h"
#include "act/lookup.h"
#include "act/stripe_entry.h"
#include "act/tightening_entry.h"
#include "act/tightening_turn.h"
#include "dialogue/line_question.h"
#include "dialogue/one_key.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/text.h"

namespace dialogue {
namespace {

std::optional<act::Done> ask_second_person(const terminal::Session& session,
                                           const progress::Progress& progress,
                                           const progress::Unmarked& unmarked) {
  act::TighteningWork work;
  work.joint = unmarked.joint;
  work.positions = act::checked_together(progress, unmarked);
  work.second_check = true;
  session.out() << words::wrapped(
      fmt::format("{} covers {}: before that somebody who did not tighten it checks {}",
                  unmarked.cover, unmarked.joint,
                  record::write_address(work.joint, work.positions)),
      session.prose_page().width, "", "  ");
  return ask_line(session, "checked by",
                  [&](const std::string& who) {
                    auto writer = session.writer();
                    writer.by = record::read_text(who, "the name", 80);
                    auto logbook = session.open_to_write();
                    return act::record_work(logbook, writer, work);
                  })
      .value;
}

// What the joint's counter shows, where it is looked at again by one; empty where by none. Nothing
// where the person stops.
std::optional<std::string> counter_shown(const terminal::Session& session,
                                         const record::Joint& joint) {
  const auto by_counter = std::ranges::find_if(joint.rechecks, [](const auto& interval) {
    return std::holds_alternative<record::RunningAmount>(interval.after);
  });
  if (by_counter == joint.rechecks.end()) return std::string();
  const auto& asked = std::get<record::RunningAmount>(by_counter->after);
  return ask_line(
             session,
             fmt::format("what the counter shows, such as 1240 {}", record::word_of(asked.counter)),
             [&](const std::string& text) {
               act::check_counter(joint, *act::counter_from(text));
               return text;
             })
      .value;
}

std::optional<act::Done> ask_for_stripes(const terminal::Session& session,
                                         const progress::Unmarked& unmarked) {
  act::StripeWords drawn;
  drawn.address = record::write_address(unmarked.joint, unmarked.unstriped);
  drawn.wiped = true;
  const auto question = fmt::format(
      "{} covers {}: wipe the teardown mark off {} and draw the final stripe now. y it is drawn, q "
      "quit",
      unmarked.cover, unmarked.joint, drawn.address);
  while (true) {
    session.out() << words::wrapped(question, session.prose_page().width, "", "  ");
    const auto typed = session.answer("> ", every_key());
    if (!typed || key_of(*typed) == 'q') return std::nullopt;
    if (key_of(*typed) == 'y') break;
    remark_on_key(session, *typed, "y q");
  }
  const auto joint = act::joint_or_refuse(session.open_to_read(), unmarked.joint).content;
  auto shown = counter_shown(session, joint);
  if (!shown) return std::nullopt;
  drawn.counter = *std::move(shown);
  auto logbook = session.open_to_write();
  return act::draw_stripe(logbook, session.writer(), drawn);
}

}  // namespace

std::optional<act::Done> finish_before_cover(const terminal::Session& session,
                                             const progress::Reassembly& now,
                                             const progress::Unmarked& unmarked) {
  return unmarked.unchecked.empty() ? ask_for_stripes(session, unmarked)
                                    : ask_second_person(session, now.progress, unmarked);
}

}  // namespace dialogue
