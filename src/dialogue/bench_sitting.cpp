#include "dialogue/bench_sitting.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/correction.h"
#include "act/lookup.h"
#include "act/pull_entry.h"
#include "act/removal_entry.h"
#include "dialogue/kept_question.h"
#include "dialogue/mistake.h"
#include "dialogue/told_test.h"
#include "failure/failure.h"
#include "progress/teardown_turn.h"
#include "quantity/ascii.h"
#include "record/address.h"

namespace dialogue {
namespace {

record::KnownNames known_names(const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  return {logbook.joint_codes(), logbook.wrench_names()};
}

// What a name of this logbook begins with, in lower case.
std::string first_letters(const record::KnownNames& known) {
  std::string letters;
  for (const auto* names : {&known.joints, &known.wrenches}) {
    for (const auto& name : *names) letters += quantity::lower(name.front());
  }
  return letters;
}

// The keys that answer at once: those that count at a prompt and, where it has keys of its own,
// those that mean nothing there. Never one that begins a name or a figure, which is then a line.
std::string keys_at_once(std::string_view keys, bool idle_too, const record::KnownNames& known) {
  const auto begin = "0123456789.," + std::string(kBeginWords) + first_letters(known);
  std::string at_once;
  for (char key = '!'; key <= '~'; ++key) {
    if (quantity::lower(key) != key || begin.find(key) != begin.npos) continue;
    if (idle_too || keys.find(key) != keys.npos) at_once += key;
  }
  return at_once;
}

}  // namespace

BenchSitting::BenchSitting(TeardownGuide guide, const terminal::Session& session)
    : guide_(std::move(guide)), session_(session) {
  if (!guide_.wrench.empty()) take_wrench(guide_.wrench);
  if (guide_.address) go_to(*guide_.address);
}

void BenchSitting::answered(screen::BenchPrompt at, std::string_view own_keys,
                            const std::function<void(const BenchAnswer&)>& act) {
  const std::string keys = std::string(own_keys) + "uq?";
  const auto shown_at = session_.open_to_read().last_line();
  const auto typed =
      session_.answer("> ", keys_at_once(keys, !own_keys.empty(), known_names(session_)));
  try {
    if (!typed) return stop();
    const auto asked = at == screen::BenchPrompt::Wrench ? AskedFor::Wrench : AskedFor::Joint;
    const auto answer = read_bench_answer(*typed, keys, known_names(session_), asked);
    if (taken_everywhere(at, answer)) return;
    // What another terminal wrote since may have answered this.
    if (const auto last = session_.open_to_read().last_line(); last != shown_at) {
      session_.remark(fmt::format(
          "line {} was written elsewhere while this was asked; nothing was recorded", last));
      return;
    }
    act(answer);
  } catch (const failure::Failure& error) {
    if (!is_for_the_person(error)) throw;
    session_.remark(error.what());
  }
}

bool BenchSitting::taken_everywhere(screen::BenchPrompt at, const BenchAnswer& answer) {
  if (const auto* key = std::get_if<Key>(&answer)) {
    if (key->key == 'q') stop();
    if (key->key == 'u') take_back();
    if (key->key == '?') session_.out() << screen::bench_keys(at, session_.prose_page());
    return std::string_view("qu?").find(key->key) != std::string_view::npos;
  }
  if (const auto* elsewhere = std::get_if<Elsewhere>(&answer)) {
    go_to(elsewhere->address);
    return true;
  }
  if (const auto* line = std::get_if<record::ShoutedLine>(&answer)) {
    take_shouted(*line);
    return true;
  }
  if (const auto* said = std::get_if<BagOrNote>(&answer)) {
    take_bag_or_note(*said);
    return true;
  }
  return false;
}

// Of the fastener that is asked about; between two joints of what comes out next.
void BenchSitting::take_bag_or_note(const BagOrNote& said) {
  if (is_at_joint_) {
    const act::Standing now(session_.open_to_read(), walk_->joint());
    const auto position = walk_->next(now.teardown);
    return keep(*this, said,
                position ? progress::at(now.teardown, walk_->joint(), *position).removal : nullptr);
  }
  keep(*this, said, nullptr);
  is_kept_ahead_ = true;
  session_.remark(fmt::format("{} {}: goes down with what comes out next",
                              said.is_bag ? "bag" : "note", said.text));
}

void BenchSitting::stop() {
  is_stopped_ = true;
  if (is_at_joint_) {
    session_.out() << fmt::format("stopped; bench {} goes on here\n", walk_->joint());
  }
}

void BenchSitting::go_to(const record::Address& address) {
  const auto joint = act::joint_or_refuse(session_.open_to_read(), address.joint).content;
  if (!address.positions.empty()) act::check_positions(joint, address.positions);
  const bool is_for_this = std::exchange(is_kept_ahead_, false);
  if (!is_for_this) kept_.note.clear();
  if (walk_ && !record::same_code(walk_->joint(), joint.code)) {
    if (!is_for_this) kept_.bag.clear();
    // Another joint may ask for another wrench.
    if (!guide_.wrench.empty()) used_last_ = std::exchange(guide_.wrench, {});
  }
  walk_.emplace(joint, address.positions);
  is_at_joint_ = true;
  has_just_come_ = true;
  set_.reset();
}

void BenchSitting::written(const act::Done& done) {
  remember(done.lines.front().stamp);
  session_.tell(done);
}

void BenchSitting::written(const act::TestDone& test) {
  remember(test.stamp());
  tell(test, session_);
}

void BenchSitting::remember(const record::Stamp& stamp) {
  lines_.push_back({stamp.line});
  kept_.note.clear();
  set_.reset();
  if (walk_) walk_->recorded();
}

void BenchSitting::take_shouted(record::ShoutedLine line) {
  if (line.wrench.empty()) {
    const auto joint = act::joint_at_or_refuse(session_.open_to_read(), line.address.joint,
                                               line.address.positions);
    line.wrench = wrench_at_hand(act::Standing(session_.open_to_read(), joint.code),
                                 line.address.positions.front());
  }
  if (line.wrench.empty()) {
    throw failure::InputError("with which wrench? Name it behind the readings, such as ... TW2");
  }
  written(record([&](auto& logbook, const auto& writer) {
    return act::record_shouted(logbook, writer, line, guide_.restart);
  }));
}

void BenchSitting::amend(const record::Entry<record::Removal>& before, const record::Removal& now) {
  const auto done = record([&](auto& logbook, const auto& writer) {
    return act::say_more(logbook, writer, before, now);
  });
  lines_.push_back({done.lines.front().stamp.line, before.stamp.line, before.content});
  session_.tell(done);
}

// The last answer, or the last pull of the test that was under way when this sitting began.
void BenchSitting::take_back() {
  if (!lines_.empty()) {
    const auto last = lines_.back();
    take_back(last);
    lines_.pop_back();
  } else if (const auto line = last_pull()) {
    take_back({*line});
  } else {
    throw failure::Refusal(
        "nothing has been answered here yet; an earlier line is struck by strike LINE --why");
  }
  set_.reset();
  is_at_joint_ = walk_.has_value();
}

// What had taken the place of a line gives it back, under a number of its own.
void BenchSitting::take_back(const Written& last) {
  constexpr const char* kWhy = "taken back at the bench";
  const auto done = record([&](auto& logbook, const auto& writer) {
    if (!last.before) return act::strike(logbook, writer, last.line, kWhy);
    return act::record_removal(logbook, writer, *last.before, {std::to_string(last.line), kWhy});
  });
  if (last.before) kept_.bag = last.before->bag;
  for (auto& written : lines_) {
    if (last.before && written.line == last.replaced) written.line = done.lines.front().stamp.line;
  }
  session_.tell(done);
}

std::optional<std::int64_t> BenchSitting::last_pull() const {
  if (!is_at_joint_) return std::nullopt;
  const act::Standing now(session_.open_to_read(), walk_->joint());
  const auto position = walk_->next(now.teardown);
  if (!position) return std::nullopt;
  const auto& pulls = progress::at(now.teardown, walk_->joint(), *position).pulls;
  if (pulls.empty()) return std::nullopt;
  return pulls.back()->stamp.line;
}

std::string BenchSitting::wrench_at_hand(const act::Standing& now, int position) {
  if (!guide_.wrench.empty()) return guide_.wrench;
  if (!used_last_) used_last_ = session_.open_to_read().wrench_used_last();
  return progress::wrench_at_hand(now.job, *now.joint, position, *used_last_, session_.day());
}

void BenchSitting::take_wrench(const std::string& name) {
  guide_.wrench = act::wrench_or_refuse(session_.open_to_read(), name).content.name;
  set_.reset();
}

void BenchSitting::skip(int position) {
  walk_->skip(position);
  kept_.note.clear();
  set_.reset();
}

screen::TeardownPlace BenchSitting::place_of(int position) const {
  const auto& positions = walk_->positions();
  const auto before = std::ranges::find(positions, position) - positions.begin();
  return {walk_->joint(), position, static_cast<std::size_t>(before) + 1, positions.size()};
}

}  // namespace dialogue
