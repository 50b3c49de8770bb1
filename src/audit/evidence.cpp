#include "audit/evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <type_traits>
#include <utility>

#include "audit/audit.h"
#include "audit/rules.h"
#include "record/address.h"

namespace audit {
namespace {

// The words that hold a figure, as decisions before schema step 9 kept them. What follows "line"
// is a number of this file alone and would differ in a merged copy.
std::string words_with_figures(std::string_view says) {
  std::string figures;
  bool after_line = false;
  while (!says.empty()) {
    const auto blank = says.find(' ');
    auto word = says.substr(0, blank);
    says.remove_prefix(blank == std::string_view::npos ? says.size() : blank + 1);
    while (!word.empty() && std::string_view("(),;.:").find(word.front()) != std::string_view::npos)
      word.remove_prefix(1);
    while (!word.empty() && std::string_view("(),;.:").find(word.back()) != std::string_view::npos)
      word.remove_suffix(1);
    const bool has_figure = word.find_first_of("0123456789") != std::string_view::npos;
    if (has_figure && !after_line) figures += fmt::format("{} ", word);
    after_line = word == "line";
  }
  return figures;
}

bool is_work_on_fasteners(record::Decision decision) {
  return decision == record::Decision::ReTorque || decision == record::Decision::Renew ||
         decision == record::Decision::Repair;
}

// Written after the line that took the position out and dated before it: it is of the joint as it
// was then, and of what has gone back since it tells nothing.
template <class Kind>
bool counts_for_nothing(const record::Stamp& line, const finding::PositionState& position) {
  constexpr bool kIsOfReassembly =
      record::OneOf<Kind, record::Tightening, record::FinalStripe, record::Recheck>;
  const auto* removal = position.removal;
  return kIsOfReassembly && removal != nullptr && line.id > removal->stamp.id &&
         record::is_earlier(line, removal->stamp);
}

// The lines by which a decision is carried out.
RestsOn work_of(record::Decision decision) {
  return decision == record::Decision::Renew
             ? kRestsOn<record::Removal, record::Renewal, record::Tightening>
             : kRestsOn<record::Tightening>;
}

bool rests_on_lines(RestsOn rests_on) {
  bool has_any = false;
  record::Kinds::for_each([&]<class Kind>() { has_any = has_any || rests_on.has<Kind>(); });
  return has_any;
}

}  // namespace

Evidence::Evidence(const Case& subject) : apart_(subject.job.apart), lookups_(*subject.lookups) {
  for (const auto& rule : rules()) any_ = any_.with(rule.rests_on);
}

template <class Kind>
void Evidence::gather(const JointLines& of_joint, JointEvidence& joint) {
  auto& lines = joint.lines[record::Kinds::index_of<Kind>()];
  for (const auto* entry : of_joint.of<Kind>()) {
    const auto& positions = record::positions_named(entry->content);
    for (const int position : positions) lines.emplace_back(position, &entry->stamp);
    if (!positions.empty()) continue;
    for (const auto& position : joint.state->positions) {
      lines.emplace_back(position.position, &entry->stamp);
    }
  }
  std::ranges::stable_sort(lines, {}, &AtPositions::value_type::first);
}

const Evidence::JointEvidence* Evidence::evidence_of(std::string_view joint) const {
  if (auto code = record::folded_code(joint); code != last_code_) {
    last_code_ = std::move(code);
    last_ = {};
    last_.state = lookups_.joints.find(last_code_);
    const auto& of_joint = lookups_.lines.of(last_code_);
    record::Kinds::for_each([&]<class Kind>() {
      if constexpr (record::AboutFasteners<Kind>) {
        if (last_.state != nullptr && any_.has<Kind>()) gather<Kind>(of_joint, last_);
      } else {
        static_assert(record::AboutNoPosition<Kind> || record::OneOf<Kind, record::Disposition>,
                      "say what the line is about: record/concerns.h");
      }
    });
  }
  return last_.state == nullptr ? nullptr : &last_;
}

template <class Kind>
void Evidence::add_of(const JointEvidence& joint, const Rule& rule, int position, Lines& lines) {
  const auto& rests_on = rule.rests_on;
  if (!rests_on.has<Kind>()) return;
  if constexpr (std::is_same_v<Kind, record::Removal>) {
    // What a finding shows rests on its own teardown and not on a later one; all else on the last.
    const auto& state = joint.state->at(position);
    const auto* finding = rests_on.has<record::Measured>() ? state.finding() : nullptr;
    const auto* removal = finding == nullptr ? state.removal : finding->removal;
    if (removal != nullptr && removal == state.removal && state.is_out_disputed) {
      for (const auto* out : state.outs) lines.push_back(&out->stamp);
    } else if (removal != nullptr) {
      lines.push_back(&removal->stamp);
    }
  } else {
    const auto& of_kind = joint.lines[record::Kinds::index_of<Kind>()];
    auto line = std::ranges::lower_bound(of_kind, position, {}, &AtPositions::value_type::first);
    for (; line != of_kind.end() && line->first == position; ++line) {
      const bool is_past = counts_for_nothing<Kind>(*line->second, joint.state->at(position));
      // What that rule tells is this very line.
      if (!is_past || rule.name == kTightenedBeforeOut.name) lines.push_back(line->second);
    }
  }
}

Evidence::Lines Evidence::lines_of(const Rule& rule, const Deviation& deviation,
                                   const Part& part) const {
  Lines lines;
  // A rule about the whole job may name one joint after another, and rests on no lines.
  if (!rests_on_lines(rule.rests_on)) return lines;
  const auto* joint = evidence_of(deviation.joint);
  if (joint == nullptr) return lines;
  const auto add = [&](int position) {
    record::Kinds::for_each([&]<class Kind>() { add_of<Kind>(*joint, rule, position, lines); });
  };
  if (part.position) {
    if (*part.position <= joint->state->joint->count) add(*part.position);
  } else {
    for (const auto& position : joint->state->positions) add(position.position);
  }
  std::ranges::sort(lines, {}, &record::Stamp::id);
  const auto is_same = [](const auto* a, const auto* b) { return a->id == b->id; };
  lines.erase(std::unique(lines.begin(), lines.end(), is_same), lines.end());
  if (part.rests_until != nullptr) {
    std::erase_if(lines,
                  [&](const auto* line) { return record::is_later(*line, *part.rests_until); });
  }
  return lines;
}

std::string Evidence::ids_of(const Rule& rule, const Deviation& deviation, const Part& part) const {
  std::string ids;
  for (const auto* line : lines_of(rule, deviation, part)) {
    if (!ids.empty()) ids += '\n';
    ids += line->id;
  }
  return ids;
}

std::string Evidence::fingerprint(const Rule& rule, const Deviation& deviation,
                                  const Part& part) const {
  return fnv1a(fmt::format("figures\n{}\n{}\n{}", word_of(deviation.level), part.figures,
                           ids_of(rule, deviation, part)));
}

std::string Evidence::old_fingerprint(const Rule& rule, const Deviation& deviation,
                                      const Part& part) const {
  const auto& said = part.old_says.empty() ? part.says : part.old_says;
  return fnv1a(fmt::format("{}\n{}\n{}", word_of(deviation.level), words_with_figures(said),
                           ids_of(rule, deviation, part)));
}

const record::Stamp* Evidence::newest(const Rule& rule, const Deviation& deviation,
                                      const Part& part) const {
  const auto lines = lines_of(rule, deviation, part);
  const auto last = std::ranges::max_element(
      lines, [](const auto* a, const auto* b) { return record::is_earlier(*a, *b); });
  return last == lines.end() ? nullptr : *last;
}

const record::Stamp* Evidence::finding(const Rule& rule, const Deviation& deviation,
                                       const Part& part) const {
  if (!rule.rests_on.has<record::Measured>()) return nullptr;
  auto findings_alone = rule;
  findings_alone.rests_on = kRestsOn<record::Measured>;
  return newest(findings_alone, deviation, part);
}

void Evidence::name_lines_since(const Rule& rule, const Deviation& deviation, Part& part) const {
  const auto& decision = part.settled_before->stamp;
  const auto decided = part.settled_before->content.decision;
  const auto is_since = [&](const record::Stamp& line) {
    return line.entered_at > decision.entered_at ||
           (line.entered_at == decision.entered_at && line.id > decision.id) ||
           apart_.are_apart(line, decision);
  };
  auto work = rule;
  work.rests_on = work_of(decided);
  const auto done = rule.rests_on.has<record::Tightening>() && is_work_on_fasteners(decided)
                        ? lines_of(work, deviation, part)
                        : Lines{};
  const auto lines = lines_of(rule, deviation, part);
  for (const auto* line : lines) {
    if (!is_since(*line)) continue;
    const bool is_work = line->done_at > decision.done_at &&
                         std::ranges::find(done, line->id, &record::Stamp::id) != done.end();
    (is_work ? part.lines_done : part.lines_since).push_back(line->line);
    if (!is_work && apart_.are_apart(*line, decision)) part.lines_apart.push_back(line->line);
  }
  if (part.told_in != nullptr && is_since(*part.told_in) &&
      std::ranges::find(lines, part.told_in->id, &record::Stamp::id) == lines.end()) {
    part.lines_since.push_back(part.told_in->line);
  }
  std::ranges::sort(part.lines_since);
  std::ranges::sort(part.lines_apart);
  std::ranges::sort(part.lines_done);
}

std::string fnv1a(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace audit
