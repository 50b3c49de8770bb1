#include "act/joint_entry.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "act/shrunk_joint.h"
#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/grade.h"
#include "fastener/part_material.h"
#include "fastener/thread_text.h"
#include "finding/part_check.h"
#include "finding/plausibility.h"
#include "finding/survey.h"
#include "plan/reassembly_order.h"
#include "quantity/ascii.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/pass_rule.h"
#include "record/specification_check.h"
#include "record/stated_order.h"
#include "record/typed_text.h"
#include "words/joint_heading.h"
#include "words/line_text.h"

namespace act {

bool describes_joint(const JointWords& words) {
  return !words.holds.empty() || !words.size.empty() || !words.length.empty() ||
         !words.grade.empty() || !words.into.empty() || !words.engaged.empty() ||
         !words.seat.empty() || !words.face.empty() || !words.count.empty() ||
         !words.layout.empty() || words.one_time || words.critical || words.live_load ||
         !words.after.empty() || !words.covers.empty() || words.bench ||
         !words.final_when.empty() || !words.order.empty() || !words.passes.empty() ||
         !words.rechecks.empty();
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
  auto text = record::read_optional_text(typed, "--final-when");
  constexpr std::string_view kWhen = "when ";
  if (quantity::starts_with_in_any_case(text, kWhen)) text.erase(0, kWhen.size());
  return text;
}

// A maker's order in one form, or a published pattern's name, either checked against the joint.
std::string order_from(const std::string& typed, record::Joint joint) {
  joint.order = quantity::trimmed(typed);
  if (joint.order.empty()) return {};
  const auto order = record::read_stated_order(joint.order, joint.count);
  return order.pattern != nullptr ? joint.order
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

// A material by its one name; empty where none was typed.
std::string material_from(std::string_view option, const std::string& typed) {
  if (typed.empty()) return {};
  return of_option(option, [&] { return fastener::read_part_material(typed).name; });
}

// A length that says nothing without the material that it belongs to.
std::optional<quantity::Length> length_of_part(std::string_view option, const std::string& typed,
                                               std::string_view material_option,
                                               const std::string& material) {
  if (typed.empty()) return std::nullopt;
  if (material.empty()) {
    throw OptionError(option, fmt::format("{} needs {} as well", option, material_option));
  }
  return of_option(option, [&] { return quantity::read_length(typed); });
}

// What is known of the parts: their materials, the engagement, the face that is turned.
void take_parts(const JointWords& words, record::Joint& joint) {
  joint.into = material_from("--into", words.into);
  joint.engaged = length_of_part("--engaged", words.engaged, "--into", joint.into);
  if (joint.engaged) joint.engaged_typed = record::read_text(words.engaged, "--engaged");
  joint.seat = material_from("--seat", words.seat);
  joint.face = length_of_part("--face", words.face, "--seat", joint.seat);
  if (joint.face) {
    joint.face_typed = record::read_text(words.face, "--face");
    of_option("--face", [&] {
      (void)fastener::bearing_diameter(
          *joint.face, fastener::usual_seat(fastener::read_thread(joint.size)).hole);
    });
  }
}

std::vector<record::RecheckInterval> rechecks_from(const std::vector<std::string>& typed) {
  std::vector<record::RecheckInterval> intervals;
  for (const auto& each : typed) {
    const auto interval = record::read_recheck_interval(each);
    if (std::ranges::find(intervals, interval.after, &record::RecheckInterval::after) !=
        intervals.end()) {
      throw failure::InputError(
          fmt::format("--recheck names {} twice", record::length_text(interval)));
    }
    intervals.push_back(interval);
  }
  return intervals;
}

}  // namespace

record::Joint joint_from(const JointWords& words, const std::string& code) {
  for (const auto& [value, name] :
       {std::pair{&words.holds, "--holds"}, std::pair{&words.size, "--size"},
        std::pair{&words.grade, "--grade"}, std::pair{&words.count, "--count"}}) {
    if (value->empty()) {
      throw OptionError(
          name, fmt::format("{} is new; {} is needed as well (see joint --help)", code, name));
    }
  }
  record::Joint joint;
  joint.code = code;
  joint.holds = of_option("--holds", [&] { return record::read_text(words.holds, "--holds"); });
  joint.size =
      of_option("--size", [&] { return fastener::write_exact(fastener::read_thread(words.size)); });
  if (!words.length.empty()) {
    joint.length = of_option("--length", [&] { return quantity::read_length(words.length); });
    joint.length_typed = record::read_text(words.length, "--length");
  }
  joint.grade = of_option("--grade", [&] { return record::read_grade_or_text(words.grade); });
  take_parts(words, joint);
  joint.count = of_option(
      "--count", [&] { return quantity::read_count(words.count, record::kMostPositions); });
  joint.layout = of_option("--layout", [&] { return layout_from(words.layout, joint.count); });
  joint.one_time = words.one_time;
  joint.critical = words.critical;
  joint.live_load = words.live_load;
  joint.after =
      of_option("--after", [&] { return other_joints(words.after, "--after", joint.code); });
  joint.covers =
      of_option("--covers", [&] { return other_joints(words.covers, "--covers", joint.code); });
  joint.bench = words.bench;
  joint.final_when = of_option("--final-when", [&] { return final_when_from(words.final_when); });
  joint.order = of_option("--order", [&] { return order_from(words.order, joint); });
  if (!words.passes.empty()) {
    joint.passes =
        of_option("--passes", [&] { return record::pass_rule_named(words.passes).name; });
  }
  joint.rechecks = of_option("--recheck", [&] { return rechecks_from(words.rechecks); });
  return joint;
}

std::optional<record::Specified> specified_from(const JointWords& words, const std::string& code,
                                                const std::vector<int>& positions) {
  if (words.spec.empty()) {
    if (!words.source.empty() || !words.condition.empty()) {
      throw OptionError("--spec", "--source and --condition belong to a --spec; give that as well");
    }
    return std::nullopt;
  }
  record::Specified specified;
  specified.joint = code;
  specified.positions = positions;
  specified.typed = of_option("--spec", [&] { return record::read_text(words.spec, "--spec"); });
  specified.procedure = of_option("--spec", [&] {
    auto procedure = record::read_specification(specified.typed);
    record::check_specification(procedure);
    return procedure;
  });
  specified.source =
      of_option("--source", [&] { return record::read_optional_text(words.source, "--source"); });
  if (!words.condition.empty()) {
    specified.condition =
        of_option("--condition", [&] { return record::read_condition_or_refuse(words.condition); });
  }
  return specified;
}

namespace {

// The words, with what they leave out as the joint before had it. A usual layout goes with its
// count: two stand in line, three on a circle.
void complete(JointWords& words, const record::Joint& before, KeptWords& kept) {
  KeptWords::fill(words.holds, before.holds);
  KeptWords::fill(words.size, before.size);
  kept.take("length", words.length, record::length_text(before));
  KeptWords::fill(words.grade, before.grade);
  // A length was of the material before.
  kept.take("engaged", words.engaged,
            words.into.empty() ? record::engaged_text(before) : std::string());
  kept.take("into", words.into, before.into);
  kept.take("face", words.face, words.seat.empty() ? record::face_text(before) : std::string());
  kept.take("seat", words.seat, before.seat);
  const bool is_usual = before.layout == layout_from({}, before.count);
  kept.take("layout", words.layout,
            is_usual && !words.count.empty() ? std::string() : record::write_exact(before.layout));
  kept.take("order", words.order, before.order);
  KeptWords::fill(words.count, std::to_string(before.count));
  kept.take("one-time", words.one_time, before.one_time);
  kept.take("critical", words.critical, before.critical);
  kept.take("live-load", words.live_load, before.live_load);
  kept.take("bench", words.bench, before.bench);
  kept.take("after", words.after, before.after);
  kept.take("covers", words.covers, before.covers);
  kept.take("final-when", words.final_when, before.final_when);
  kept.take("passes", words.passes, before.passes);
  std::vector<std::string> rechecks;
  for (const auto& each : before.rechecks) rechecks.push_back(record::write_exact(each));
  kept.take("recheck", words.rechecks, std::move(rechecks));
}

// The same for what was specified, and for which positions.
void complete(JointWords& words, record::Address& address, const record::Specified& before,
              KeptWords& kept) {
  KeptWords::fill(words.spec, before.typed);
  kept.take("source", words.source, before.source);
  kept.take("condition", words.condition, std::string(fastener::name_of(before.condition)));
  if (address.positions.empty()) address.positions = before.positions;
}

// Refusal where the code of a new joint is another's but for noughts, unless it is meant.
void check_code(const std::string& code, const KnownCodes& known, bool really) {
  const auto other = known.differs_in_noughts(code);
  if (other.empty() || really) return;
  throw failure::Refusal(
      fmt::format("{} is new, but {} is known already; write {} where that is meant, else add "
                  "--really or choose another code",
                  code, other, other));
}

// Positions stand behind the code only for a specification of their own.
void check_positions_alone(const JointWords& words, const record::Address& address) {
  if (!describes_joint(words) && !words.spec.empty()) return;
  throw failure::UsageError(
      fmt::format("{}: positions are named only to give them a --spec of their own; the joint "
                  "itself is entered as {}",
                  words.code, address.joint));
}

// Refusal for a specification that the fastener cannot carry or that clamps nothing, unless it is
// meant; a remark for what is only unusual.
void check_plausible(const record::Specified& specified, const record::Joint& joint, bool really,
                     std::vector<std::string>& remarks) {
  const auto found = finding::implausible(specified, joint);
  if (!found) return;
  if (finding::is_refused(found->plausibility) && !really) {
    throw failure::Refusal(found->says +
                           ". Nothing was written; where the source does say so, add --really");
  }
  remarks.push_back(found->says);
}

// What the parts of the joint do not bear; refused is none of it, parts are often better than their
// least strength.
void remark_on_parts(const record::Joint& joint, const record::Specified* specified,
                     std::vector<std::string>& remarks) {
  for (auto& answer : finding::part_answers(joint, specified)) {
    if (answer.bears != finding::PartBears::Yes) remarks.push_back(std::move(answer.says));
  }
}

void remark_on(const record::Joint& joint, std::vector<std::string>& remarks) {
  if (const auto note = fastener::read_thread(joint.size).note()) remarks.push_back(*note);
  if (!joint.passes.empty()) {
    const auto& rule = record::pass_rule_named(joint.passes);
    if (!rule.is_stated_for(joint.count)) {
      remarks.push_back(fmt::format("the source of {} states it for another count ({}) than {}",
                                    rule.name, rule.use, joint.count));
    }
  }
  if (!fastener::read_grade(joint.grade)) {
    remarks.push_back(
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

// "2 x M10x1.5 x 60mm, 8.8" as far as a torque depends on it; nothing of what else a joint says.
bool is_same_bolt(const record::Joint& a, const record::Joint& b) {
  return a.size == b.size && a.grade == b.grade && a.length.has_value() == b.length.has_value() &&
         (!a.length || quantity::is_same(*a.length, *b.length));
}

// The positions that were tightened since they last came out.
std::vector<int> tightened_now(const finding::JointState& joint, const record::Job& job) {
  std::vector<int> positions;
  for (const auto& position : joint.positions) {
    const bool is_back = std::ranges::any_of(job.tightenings, [&](const auto& entry) {
      const auto& work = entry.content;
      return record::is_work(work) && record::same_code(work.joint, joint.joint->code) &&
             std::ranges::find(work.positions, position.position) != work.positions.end() &&
             (position.removal == nullptr ||
              record::is_later(entry.stamp, position.removal->stamp));
    });
    if (is_back) positions.push_back(position.position);
  }
  return positions;
}

// What had been tightened while the joint was entered otherwise; empty where that changes nothing.
std::string tightened_before(const record::Job& before, const std::string& code,
                             const record::Joint* joint, const record::Specified* specified) {
  const auto survey = finding::survey(before);
  const auto* state = finding::joint_in(survey, code);
  if (state == nullptr) return {};
  const auto tightened = tightened_now(*state, before);
  if (tightened.empty()) return {};
  std::string was;
  if (joint != nullptr && !is_same_bolt(*joint, *state->joint)) {
    was = words::kind_text(*state->joint);
  }
  if (specified != nullptr) {
    const auto& position =
        state->at(specified->positions.empty() ? tightened.front() : specified->positions.front());
    const auto* asked = position.specified;
    const bool is_same = asked != nullptr && asked->condition == specified->condition &&
                         asked->procedure == specified->procedure;
    if (!is_same) {
      was += fmt::format("{}{}", was.empty() ? "" : ", ",
                         asked == nullptr ? std::string("without a specification")
                                          : fmt::format("{}, {}", asked->typed,
                                                        fastener::name_of(asked->condition)));
    }
  }
  if (was.empty()) return {};
  return fmt::format(
      "{}: {} tightened when it was {}; \"boltwitness audit\" names it, and judges the torque by "
      "what is entered now",
      record::write_address(code, tightened),
      tightened.size() == 1 ? std::string("1 position was")
                            : fmt::format("{} positions were", tightened.size()),
      was);
}

// No condition counts as received; where one was given until now, that is a change nobody typed.
void remark_on_condition(const record::Specified& specified, const record::Job& before,
                         std::vector<std::string>& remarks) {
  const record::Entry<record::Specified>* until_now = nullptr;
  for (const auto& entry : before.specifications) {
    const bool is_of_these =
        entry.content.positions.empty() || entry.content.positions == specified.positions;
    if (record::same_code(entry.content.joint, specified.joint) && is_of_these) until_now = &entry;
  }
  if (until_now == nullptr || until_now->content.condition == specified.condition) return;
  const auto condition = fastener::name_of(until_now->content.condition);
  remarks.push_back(fmt::format(
      "no --condition was given, so {} is taken as {}; line {} said {}: where that still holds, "
      "replace this line by one with --condition {}",
      specified.joint, fastener::name_of(specified.condition), until_now->stamp.line, condition,
      condition));
}

}  // namespace

std::vector<std::string> remarks_on_others(const record::Joint& joint, const KnownCodes& known) {
  std::vector<std::string> remarks;
  for (const auto* others : {&joint.after, &joint.covers}) {
    for (const auto& other : *others) {
      if (known.contains(other)) continue;
      remarks.push_back(fmt::format(
          "{} is not in the logbook yet; until it is entered {} is ordered without it, and the "
          "audit holds that up",
          other, joint.code));
    }
  }
  return remarks;
}

namespace {

// Joints that wait for each other have no order, and without one nothing is tightened.
std::string remark_on_circle(const record::Job& job) {
  const auto survey = finding::survey(job);
  try {
    (void)plan::reassembly_order(survey);
  } catch (const plan::PlanCycle& cycle) {
    return fmt::format("{}: nothing can be tightened before that is corrected: boltwitness {}",
                       cycle.circle(), cycle.mend());
  }
  return {};
}

}  // namespace

CheckedJoint check_joint(const JointWords& words, const record::Address& address,
                         const KnownJoints& known) {
  CheckedJoint checked;
  if (!address.positions.empty()) {
    of_option("joint", [&] {
      check_positions_alone(words, address);
      if (known.same == nullptr) {
        throw failure::Refusal(no_such_joint(address.joint, known.to_suggest));
      }
      check_positions(*known.same, address.positions);
    });
  }
  if (describes_joint(words) || known.same == nullptr) {
    of_option("joint", [&] {
      if (known.same != nullptr) throw failure::Refusal(known.what_to_do);
      if (!known.is_correction) check_code(address.joint, known.codes, words.really);
    });
    checked.joint = joint_from(words, address.joint);
  }
  const auto& joint = checked.joint ? *checked.joint : *known.same;
  checked.specified = specified_from(words, joint.code, address.positions);
  if (!checked.joint && !checked.specified) {
    throw OptionError(
        "--spec",
        fmt::format("nothing to enter for {0}; give --spec. What is entered of it is shown by "
                    "\"boltwitness show {0}\"",
                    words.code));
  }
  if (checked.specified) {
    of_option("--spec",
              [&] { check_plausible(*checked.specified, joint, words.really, checked.remarks); });
  }
  remark_on_parts(joint, checked.specified ? &*checked.specified : nullptr, checked.remarks);
  return checked;
}

Done enter_joint(logbook::Logbook& logbook, const logbook::Writer& writer,
                 const JointWords& stated) {
  Amendment amendment(logbook, writer, stated.correction);
  auto address = record::read_address(stated.code);
  const auto before = logbook.job_of(address.joint);
  auto words = stated;
  KeptWords kept(words.correction);
  if (const auto* joint_before = amendment.before<record::Joint>()) {
    complete(words, *joint_before, kept);
    kept.check();
  } else if (const auto* specified_before = amendment.before<record::Specified>()) {
    complete(words, address, *specified_before, kept);
    kept.check();
  }
  amendment.strike_replaced({"joint", "specification"});
  auto same = logbook.joint(address.joint);
  // One that counts though it was struck (record/kept_by_use.h) is entered again as if it were new.
  if (same && describes_joint(words) && logbook.line(same->stamp.line)->struck) same.reset();
  const KnownCodes codes(logbook.joint_codes());
  KnownJoints known{.same = same ? &same->content : nullptr,
                    .codes = codes,
                    .to_suggest = codes.all(),
                    .is_correction = amendment.replaced().has_value()};
  if (same) {
    known.what_to_do = fmt::format(
        "{} is in the logbook already (line {}); to correct it add --replace {} "
        "--why ..., to add a specification give only --spec, --source and --condition",
        same->content.code, same->stamp.line, same->stamp.line);
  }
  const auto [joint, specified, remarks] = check_joint(words, address, known);

  const auto loss = joint ? what_is_lost(before, *joint, logbook) : ShrunkJoint{};
  if (loss.leaves_strays && !words.really) {
    throw failure::Refusal(loss.text + ". Nothing was written; where it is so, add --really");
  }

  Done done{{}, remarks};
  if (!loss.text.empty()) done.remarks.push_back(loss.text);
  if (auto text = tightened_before(before, address.joint, joint ? &*joint : nullptr,
                                   specified ? &*specified : nullptr);
      !text.empty()) {
    done.remarks.push_back(std::move(text));
  }
  if (joint) {
    remark_on(*joint, done.remarks);
    for (auto& remark : remarks_on_others(*joint, known.codes)) {
      done.remarks.push_back(std::move(remark));
    }
  }
  if (specified && words.condition.empty()) remark_on_condition(*specified, before, done.remarks);
  if (joint) done.lines.push_back({amendment.append(*joint), words::line_text(*joint)});
  if (specified) done.lines.push_back({amendment.append(*specified), words::line_text(*specified)});
  if (joint && (!joint->after.empty() || !joint->covers.empty())) {
    if (auto circle = remark_on_circle(logbook.job()); !circle.empty()) {
      done.remarks.push_back(std::move(circle));
    }
  }
  amendment.commit();
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
