#include "tables/intake.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <unordered_set>

#include "act/lookup.h"
#include "act/option_error.h"
#include "failure/failure.h"
#include "plan/reassembly_order.h"
#include "record/address.h"
#include "record/most_positions.h"
#include "record/typed_text.h"

namespace tables {

Intake::Intake(record::Job job, logbook::Writer writer, const FileBeside& file_beside)
    : job_(std::move(job)), writer_(std::move(writer)), file_beside_(file_beside), tested_(job_) {
  for (const auto& joint : job_.joints) know(joint.content);
  for (const auto& wrench : job_.wrenches) know(wrench.content);
}

void Intake::know(const record::Joint& joint) {
  positions_ = positions_with(joint);
  const auto [at, is_new] = joints_.insert_or_assign(record::folded_code(joint.code), joint);
  if (is_new) joint_codes_.add(joint.code);
}

// Of all joints, this one in the place of what it was.
double Intake::positions_with(const record::Joint& joint) const {
  const auto* before = this->joint(joint.code);
  return positions_ + joint.count - (before == nullptr ? 0 : before->count);
}

void Intake::know(const record::Wrench& wrench) {
  const auto [at, is_new] = wrenches_.insert_or_assign(record::folded_code(wrench.name), wrench);
  if (is_new) wrench_names_.push_back(wrench.name);
}

const record::Joint* Intake::joint(std::string_view code) const {
  const auto at = joints_.find(record::folded_code(code));
  return at == joints_.end() ? nullptr : &at->second;
}

const record::Wrench* Intake::wrench(std::string_view name) const {
  const auto at = wrenches_.find(record::folded_code(name));
  return at == wrenches_.end() ? nullptr : &at->second;
}

const record::Joint& Intake::joint_or_refuse(const std::string& code) const {
  if (const auto* known = joint(code)) return *known;
  throw failure::Refusal(act::no_such_joint(code, to_suggest(joint_codes_.all())));
}

const record::Wrench& Intake::wrench_or_refuse(const std::string& name) const {
  if (const auto* known = wrench(name)) return *known;
  throw failure::Refusal(act::no_such_wrench(name, to_suggest(wrench_names_)));
}

const std::vector<std::string>& Intake::to_suggest(const std::vector<std::string>& names) const {
  constexpr int kMostSuggested = 50;  // as many faults as faults_text shows
  static const std::vector<std::string> none;
  return ++suggested_ > kMostSuggested ? none : names;
}

std::string Intake::by(const TableRow& row) const {
  const auto who = row["by"];
  if (who.empty()) return writer_.by;
  return act::of_option("by", [&] { return record::read_text(who, "by", 80); });
}

record::Moment Intake::done_at(const TableRow& row) const {
  const auto when = row["at"];
  if (when.empty()) return writer_.done_at;
  return act::of_option("at", [&] {
    const auto moment = record::read_moment(when);
    writer_.check_is_past(moment);
    return moment;
  });
}

const progress::Progress& Intake::progress() {
  if (!progress_) {
    reassembly_ = std::make_unique<progress::Reassembly>(job_, record::local_day(writer_.done_at));
    progress_ = reassembly_->progress;
  }
  return *progress_;
}

void Intake::add(const TableRow& row, record::Content content, const std::string& file) {
  NewLine line{by(row), done_at(row), std::move(content), file};
  if (const auto* joint = std::get_if<record::Joint>(&line.content)) {
    act::of_option("count", [&] { record::check_position_total(positions_with(*joint)); });
    know(*joint);
  }
  if (const auto* wrench = std::get_if<record::Wrench>(&line.content)) know(*wrench);
  if (const auto* test = std::get_if<record::Measured>(&line.content)) tested_.add(*test);
  if (const auto* tightening = std::get_if<record::Tightening>(&line.content)) {
    // An id above all that are there, as the line will get when it is written.
    const auto id = fmt::format("ffffffff-ffff-7fff-bfff-{:012x}", added_);
    tightened_.push_back({{id, 0, line.by, line.done_at, writer_.now, {}}, *tightening});
    job_.tightenings.push_back(tightened_.back());
    if (progress_) progress_->count(tightened_.back());
  }
  ++added_;
  taken_.push_back(std::move(line));
}

// The rows that are dated before a line which they come after; once a joint, since a table can have
// very many.
std::vector<std::string> Intake::counts_for_nothing() {
  if (tightened_.empty()) return {};
  std::unordered_set<std::string_view> rows;   // their ids
  std::map<std::string, std::set<int>> named;  // the positions, by joint
  for (const auto& row : tightened_) {
    rows.insert(row.stamp.id);
    named[row.content.joint].insert(row.content.positions.begin(), row.content.positions.end());
  }
  const auto is_row = [&](const auto* work) { return rows.contains(work->stamp.id); };
  std::map<std::string, std::set<int>> before_out;
  std::map<std::string, std::set<int>> too_early;
  try {
    for (const auto& [joint, positions] : named) {
      for (const int position : positions) {
        if (std::ranges::any_of(progress().dated_before_out(joint, position), is_row)) {
          before_out[joint].insert(position);
        }
        if (std::ranges::any_of(progress().dated_too_early(joint, position), is_row,
                                &progress::DatedTooEarly::work)) {
          too_early[joint].insert(position);
        }
      }
    }
  } catch (const plan::PlanCycle&) {
    return {};  // nothing follows anything before that is mended, which the audit asks for
  }
  std::vector<std::string> remarks;
  const auto tell = [&](const auto& by_joint, std::string_view before_what) {
    for (const auto& [joint, positions] : by_joint) {
      remarks.push_back(fmt::format(
          "{}: rows are dated before {}, and count for nothing: audit names their lines",
          record::write_address(joint, {positions.begin(), positions.end()}), before_what));
    }
  };
  tell(before_out, "it came out");
  tell(too_early, "the line that they have to follow");
  return remarks;
}

std::vector<std::string> Intake::remarks() {
  auto remarks = remarks_;
  std::ranges::move(counts_for_nothing(), std::back_inserter(remarks));
  std::ranges::move(tested_.remarks(), std::back_inserter(remarks));
  return remarks;
}

void Intake::remark(std::vector<std::string> texts) {
  std::ranges::move(texts, std::back_inserter(remarks_));
}

}  // namespace tables
