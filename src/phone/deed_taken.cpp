#include "phone/deed_taken.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "act/correction.h"
#include "act/look_entry.h"
#include "act/lookup.h"
#include "act/photograph_entry.h"
#include "act/pull_entry.h"
#include "act/removal_entry.h"
#include "act/standing.h"
#include "act/stripe_entry.h"
#include "act/tightening_entry.h"
#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "record/typed_text.h"
#include "screen/found_answer.h"
#include "screen/recheck_answer.h"
#include "words/line_text.h"

namespace phone {
namespace {

constexpr const char* kTakenBack = "taken back at the phone";

// What a deed came to, for the page.
struct Outcome {
  act::Done done;
  std::vector<std::string> told = {};
};

Outcome told_of(const act::TestDone& test, record::Moment now) {
  if (test.after == nullptr) return {test.done};
  const auto audit = act::audit_of(test, now);
  return {test.done, screen::found_lines(*test.after->joint, test.finding(),
                                         audit::likeliest_cause(audit, test.position))};
}

Outcome take_out(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  record::Removal removal;
  removal.joint = deed.joint;
  removal.positions = {deed.position};
  removal.broke = record::read_word<record::BreakLoose>(deed.broke);
  removal.marked = deed.marked;
  if (!deed.bag.empty()) removal.bag = record::read_text(deed.bag, "the bag", 80);
  if (!deed.note.empty()) removal.note = record::read_text(deed.note, "the note", 1000);
  return {act::record_removal(logbook, writer, removal)};
}

// A bag or note that was thought of when the fastener was out.
Outcome keep_more(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  const act::Standing now(logbook, deed.joint);
  act::check_positions(*now.joint->joint, {deed.position});
  const auto* removal = progress::at(now.teardown, now.joint->joint->code, deed.position).removal;
  if (removal == nullptr) {
    throw failure::Refusal(
        fmt::format("{} is not recorded as out, so there is no line that says more of it",
                    record::write_address(now.joint->joint->code, deed.position)));
  }
  auto more = removal->content;
  if (!deed.bag.empty()) more.bag = record::read_text(deed.bag, "the bag", 80);
  if (!deed.note.empty()) more.note = record::read_text(deed.note, "the note", 1000);
  return {act::say_more(logbook, writer, *removal, more)};
}

std::optional<record::Restart> restart_in(const Deed& deed) {
  if (deed.restart.empty()) return std::nullopt;
  return record::read_word<record::Restart>(deed.restart);
}

Outcome pull(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  const auto wrench = act::wrench_or_refuse(logbook, deed.wrench).content;
  record::SettingReading reading;
  reading.setting = record::setting_on(wrench, record::read_setting(deed.setting));
  reading.mark = record::read_word<record::Mark>(deed.mark);
  return told_of(act::record_pull(logbook, writer,
                                  {{{deed.joint, {deed.position}}, wrench.name},
                                   restart_in(deed),
                                   reading,
                                   record::write_exact(reading)}),
                 writer.now);
}

Outcome tighten(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  act::TighteningWords words;
  if (deed.pass != 0) words.pass = std::to_string(deed.pass);
  words.wrench = deed.wrench;
  words.set = deed.setting;
  words.turned = deed.turned;
  words.skip = deed.skip;
  words.seen = deed.seen;
  words.check = deed.kind == "check";
  auto address = deed.positions.empty() ? record::Address{deed.joint, {deed.position}}
                                        : record::read_address(deed.joint + '/' + deed.positions);
  auto work = act::work_from(words, std::move(address));
  // The page asks before it leads to such a step.
  work.is_time_confirmed = deed.positions.empty();
  return {act::record_work(logbook, writer, work)};
}

Outcome stripe(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  act::StripeWords words;
  words.address = deed.joint + '/' + deed.positions;
  words.wiped = deed.wiped;
  words.counter = deed.counter;
  return {act::draw_stripe(logbook, writer, words)};
}

Outcome look(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  act::LookWords words;
  words.address = deed.joint + '/' + deed.positions;
  words.state = {deed.state};
  words.counter = deed.counter;
  const auto done = act::record_look(logbook, writer, words);
  if (!done.recheck.turned) return {done.done};
  return {done.done, screen::turned_lines(done.turned, done.recheck, done.unit)};
}

Outcome photograph(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  act::PhotographWords words;
  words.where = deed.where;
  words.note = deed.note;
  return {act::record_photograph(logbook, writer, words, *deed.picture)};
}

// Two phones may have tapped in one moment.
bool are_written_together(const record::Stamp& a, const record::Stamp& b) {
  return a.entered_at == b.entered_at && a.by == b.by && a.device == b.device;
}

// The lines that one deed wrote: from its first on, what was written with it.
std::vector<record::HistoryLine> lines_of_deed(const logbook::Logbook& logbook,
                                               const logbook::Line& first) {
  logbook::Logbook::Unreadable unreadable;
  auto lines = logbook.history(unreadable);
  std::erase_if(lines, [&](const auto& line) { return line.stamp.line < first.line; });
  std::ranges::sort(lines, {}, [](const auto& line) { return line.stamp.line; });
  std::vector<record::HistoryLine> written;
  for (auto& line : lines) {
    // A strike comes first where there is one, and is no line of the history.
    const auto expected = written.empty() ? first.line + (first.kind == "strike" ? 1 : 0)
                                          : written.back().stamp.line + 1;
    if (line.stamp.line != expected) break;
    if (!written.empty() && !are_written_together(line.stamp, written.front().stamp)) break;
    written.push_back(std::move(line));
  }
  return written;
}

// What was struck to say more of it is put back as it was; all else is struck.
Outcome take_back(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  const auto first = logbook.line_given(deed.of);
  if (!first) {
    throw failure::Refusal("what was to be taken back is not in the logbook; nothing was recorded");
  }
  const auto lines = lines_of_deed(logbook, *first);
  if (first->kind != "strike") {
    std::vector<std::int64_t> numbers;
    for (const auto& line : lines) numbers.push_back(line.stamp.line);
    return {act::strike(logbook, writer, numbers, kTakenBack)};
  }
  logbook::Logbook::Unreadable unreadable;
  const auto history = logbook.history(unreadable);
  const auto before = std::ranges::find_if(history, [&](const auto& line) {
    return line.struck_by && line.struck_by->line == first->line;
  });
  const auto* removal =
      before == history.end() ? nullptr : std::get_if<record::Removal>(&before->content);
  if (removal == nullptr || lines.empty()) {
    throw failure::Refusal(
        fmt::format("line {} took something back itself; enter that again instead", first->line));
  }
  return {act::record_removal(logbook, writer, *removal,
                              {std::to_string(lines.front().stamp.line), kTakenBack})};
}

Outcome carry_out(const Deed& deed, logbook::Logbook& logbook, const logbook::Writer& writer) {
  if (deed.kind == "out") return take_out(deed, logbook, writer);
  if (deed.kind == "keep") return keep_more(deed, logbook, writer);
  if (deed.kind == "pull") return pull(deed, logbook, writer);
  if (deed.kind == "enter") {
    return told_of(act::record_test_so_far(logbook, writer, {deed.joint, {deed.position}}),
                   writer.now);
  }
  if (deed.kind == "tighten" || deed.kind == "check") return tighten(deed, logbook, writer);
  if (deed.kind == "stripe") return stripe(deed, logbook, writer);
  if (deed.kind == "look") return look(deed, logbook, writer);
  if (deed.picture) return photograph(deed, logbook, writer);
  if (deed.kind == "undo") return take_back(deed, logbook, writer);
  throw failure::InputError("the request is of no kind that is known here; load the page anew");
}

nlohmann::ordered_json answer(const Outcome& outcome, bool is_again) {
  auto lines = nlohmann::ordered_json::array();
  for (const auto& line : outcome.done.lines) {
    lines.push_back({{"line", line.stamp.line}, {"id", line.stamp.id}, {"says", line.says}});
  }
  return {{"lines", std::move(lines)},
          {"remarks", outcome.done.remarks},
          {"told", outcome.told},
          {"again", is_again}};
}

// As it was answered then, but for what was remarked.
nlohmann::ordered_json answer_again(const logbook::Logbook& logbook, const logbook::Line& first) {
  Outcome outcome;
  for (const auto& line : lines_of_deed(logbook, first)) {
    outcome.done.lines.push_back({line.stamp, words::line_text(line.content)});
  }
  if (first.kind == "strike" && outcome.done.lines.empty()) {
    record::Stamp stamp;
    stamp.id = first.id;
    stamp.line = first.line;
    outcome.done.lines.push_back({stamp, "struck"});
  }
  return answer(outcome, true);
}

}  // namespace

nlohmann::ordered_json take(const Deed& deed, logbook::Logbook& logbook, logbook::Writer writer) {
  writer.given = deed.id;
  try {
    // Before all else: what was done before would be refused for having been done.
    logbook::check_not_written(logbook, writer);
    return answer(carry_out(deed, logbook, writer), false);
  } catch (const logbook::AlreadyWritten& before) {
    if (!before.is_same()) throw;
    return answer_again(logbook, before.first());
  }
}

}  // namespace phone
