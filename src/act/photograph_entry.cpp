#include "act/photograph_entry.h"

#include <fmt/format.h>

#include "act/amendment.h"
#include "act/at_page.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/named_deviation.h"
#include "audit/audit.h"
#include "audit/settlement.h"
#include "failure/failure.h"
#include "finding/survey.h"
#include "logbook/digest.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/concerns.h"
#include "record/deviation_id.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

constexpr std::size_t kLongestNote = 1000;

bool is_machine(std::string_view where) {
  return quantity::same_in_any_case(quantity::trimmed(where), record::kWholeMachine);
}

// Ids of deviations have a colon, and codes of joints none.
bool is_deviation(std::string_view where) { return where.find(':') != std::string_view::npos; }

// Of the deviation's own joint and positions, so that it is found with them.
void show_deviation(record::Photograph& photograph, const std::string& id,
                    const PhotographSubjects& subjects) {
  const auto job = subjects.job();
  const auto survey = finding::survey(job);
  const auto audit = audit::run({job, survey, subjects.now});
  const auto& deviation = deviation_or_refuse(audit, id);
  const auto* part = audit::part_in(deviation, id);
  photograph.deviation = part == nullptr ? deviation.id : part->id;
  photograph.joint = deviation.joint;
  if (part == nullptr) {
    photograph.positions = deviation.positions;
  } else if (part->position) {
    photograph.positions = {*part->position};
  }
}

void show_joint(record::Photograph& photograph, const std::string& where,
                const PhotographSubjects& subjects) {
  auto address = record::read_address(where);
  const auto joint = subjects.joint_or_refuse(address.joint);
  if (!address.positions.empty()) check_positions(joint, address.positions);
  photograph.joint = joint.code;
  photograph.positions = std::move(address.positions);
}

// The words, with what they leave out as the line before had it.
PhotographWords completed(PhotographWords words, const record::Photograph* before) {
  if (before == nullptr) return words;
  KeptWords kept(words.correction);
  KeptWords::fill(words.where, record::subject_of(*before));
  kept.take("note", words.note, before->note);
  kept.check();
  return words;
}

// One that is entered twice was most often meant to be another.
void refuse_shown_already(const logbook::Logbook& logbook, const record::Photograph& photograph) {
  for (const auto& entry : logbook.photographs()) {
    const auto& known = entry.content;
    if (known.sha256 != photograph.sha256 ||
        !record::same_deviation_id(record::subject_of(known), record::subject_of(photograph))) {
      continue;
    }
    const auto why = fmt::format("line {} shows this very photograph of {} already",
                                 entry.stamp.line, record::subject_of(known));
    throw AtPage<failure::Refusal>(
        fmt::format("{}; choose another file, or give what is to be otherwise with --replace {}",
                    why, entry.stamp.line),
        why + "; leave this one out");
  }
}

std::string left_out(std::size_t bytes) {
  return fmt::format(
      "{} bytes of the file were left out: what it said of place, time and device, and whatever "
      "else is not the picture",
      bytes);
}

// The picture of a line alone.
record::Photograph without_words(record::Photograph photograph) {
  photograph.joint.clear();
  photograph.positions.clear();
  photograph.deviation.clear();
  photograph.note.clear();
  return photograph;
}

}  // namespace

record::Photograph photograph_from(const PhotographWords& words, record::Photograph photograph,
                                   const PhotographSubjects& subjects) {
  const auto& where = words.where;
  if (where.empty()) {
    throw failure::UsageError(
        "say what it is of: photo J06/3 FILE, photo J06 FILE, photo machine FILE, or the id of a "
        "deviation");
  }
  photograph.note = record::read_optional_text(words.note, "--note", kLongestNote);
  if (is_deviation(where)) {
    show_deviation(photograph, where, subjects);
  } else if (!is_machine(where)) {
    show_joint(photograph, where, subjects);
  }
  return photograph;
}

record::Photograph photograph_of(const record::Picture& picture) {
  record::Photograph photograph;
  photograph.format = picture.format;
  photograph.width = picture.width;
  photograph.height = picture.height;
  photograph.length = static_cast<std::int64_t>(picture.bytes.size());
  photograph.sha256 = logbook::sha256(picture.bytes);
  return photograph;
}

Done record_photograph(logbook::Logbook& logbook, const logbook::Writer& stated,
                       const PhotographWords& said, std::optional<std::string_view> bytes) {
  Amendment amendment(logbook, stated, said.correction);
  amendment.strike_replaced({"photograph"});
  const auto* before = amendment.before<record::Photograph>();
  if (!bytes && before == nullptr) throw failure::UsageError("name the file: photo WHERE FILE");
  Done done;
  record::Photograph shown;
  if (bytes) {
    const auto picture = record::read_picture(*bytes);
    if (picture.bytes.size() < bytes->size()) {
      done.remarks.push_back(left_out(bytes->size() - picture.bytes.size()));
    }
    shown = photograph_of(picture);
    amendment.keep_photograph(picture.bytes);
  } else {
    shown = without_words(*before);
  }
  const auto photograph = photograph_from(
      completed(said, before), std::move(shown),
      {[&](const std::string& code) { return joint_or_refuse(logbook, code).content; },
       [&] { return logbook.job(); }, amendment.writer().done_at});
  refuse_shown_already(logbook, photograph);
  auto stamp = amendment.append(photograph);
  done.lines.push_back({std::move(stamp), words::line_text(photograph)});
  amendment.commit();
  amendment.tell_replaced(done);
  return done;
}

std::vector<record::Entry<record::Photograph>> photographs_of(const logbook::Logbook& logbook,
                                                              const std::string& stated,
                                                              record::Moment now) {
  const std::string where(quantity::trimmed(stated));
  auto shown = logbook.photographs();
  if (where.empty()) return shown;
  if (is_machine(where) || is_deviation(where)) {
    std::erase_if(shown, [&](const auto& each) {
      return !record::same_deviation_id(record::subject_of(each.content), where);
    });
    if (shown.empty() && is_deviation(where)) {
      const auto job = logbook.job();
      const auto survey = finding::survey(job);
      (void)deviation_or_refuse(audit::run({job, survey, now}), where);
    }
    return shown;
  }
  const auto address = record::read_address(where);
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  if (!address.positions.empty()) check_positions(joint, address.positions);
  std::erase_if(shown, [&](const auto& each) { return !record::concerns(each.content, address); });
  return shown;
}

record::Photograph photograph_of_line(const logbook::Logbook& logbook, std::int64_t line) {
  const auto there = logbook.line(line);
  if (!there) throw failure::Refusal(fmt::format("there is no line {} in this logbook", line));
  if (auto shown = logbook.photograph_in(there->id)) return std::move(shown->content);
  throw failure::Refusal(fmt::format(
      "line {} is a {} and shows no photograph; \"boltwitness photo\" lists those that there are",
      line, there->kind));
}

}  // namespace act
