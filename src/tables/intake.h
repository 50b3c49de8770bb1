#pragma once

#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "act/known_codes.h"
#include "logbook/recording.h"
#include "progress/reassembly.h"
#include "record/content.h"
#include "tables/table_row.h"
#include "tables/tested_places.h"

namespace tables {

// A line that an import is going to write.
struct NewLine {
  std::string by;
  record::Moment done_at;
  record::Content content;
  std::string file = {};  // with the bytes of a photograph
};

// The bytes of a file that a row names, which lies beside the table. InputError where there is
// none.
using FileBeside = std::function<std::string(const std::string& name)>;

// What the logbook holds and what the rows before have added to it, against which each row is
// checked; nothing is written here.
class Intake {
 public:
  // `writer` says who and when where a row does not.
  Intake(record::Job job, logbook::Writer writer, const FileBeside& file_beside);

  // The joint or wrench of that name, its latest entry; nothing where there is none.
  [[nodiscard]] const record::Joint* joint(std::string_view code) const;
  [[nodiscard]] const record::Wrench* wrench(std::string_view name) const;

  // The same; Refusal, with the nearest known name, where there is none; for many as
  // codes_to_suggest.
  [[nodiscard]] const record::Joint& joint_or_refuse(const std::string& code) const;
  [[nodiscard]] const record::Wrench& wrench_or_refuse(const std::string& name) const;

  // Of the logbook and of the rows before.
  [[nodiscard]] const act::KnownCodes& joint_codes() const { return joint_codes_; }

  // The same to be told which may be meant: none once that was told many times, since no more are
  // shown and each is held against every name.
  [[nodiscard]] const std::vector<std::string>& codes_to_suggest() const {
    return to_suggest(joint_codes_.all());
  }

  // Who did what the row says, and when: its own columns `by` and `at`, else the writer.
  // act::OptionError for either.
  [[nodiscard]] std::string by(const TableRow& row) const;
  [[nodiscard]] record::Moment done_at(const TableRow& row) const;

  // When the rows are taken.
  [[nodiscard]] record::Moment now() const { return writer_.now; }

  // The job with the tightenings added so far.
  [[nodiscard]] const record::Job& job() const { return job_; }

  // The plan of the writer's day and how far it has come, with all that has been added.
  [[nodiscard]] const progress::Progress& progress();

  [[nodiscard]] std::string file_beside(const std::string& name) const {
    return file_beside_(name);
  }

  void add(const TableRow& row, record::Content content, const std::string& file = {});

  // What is remarkable about a row that is taken all the same.
  void remark(std::vector<std::string> texts);
  [[nodiscard]] std::vector<std::string> remarks();

  // What has been added since it was last asked.
  [[nodiscard]] std::vector<NewLine> take_lines() { return std::exchange(taken_, {}); }

 private:
  [[nodiscard]] std::vector<std::string> counts_for_nothing();
  void know(const record::Joint& joint);
  [[nodiscard]] double positions_with(const record::Joint& joint) const;
  void know(const record::Wrench& wrench);

  record::Job job_;
  logbook::Writer writer_;
  const FileBeside& file_beside_;
  double positions_ = 0.0;  // of all joints together
  std::unordered_map<std::string, record::Joint> joints_;
  std::unordered_map<std::string, record::Wrench> wrenches_;
  // As written, for suggestions; none once many were made.
  [[nodiscard]] const std::vector<std::string>& to_suggest(
      const std::vector<std::string>& names) const;

  act::KnownCodes joint_codes_;
  std::vector<std::string> wrench_names_;
  mutable int suggested_ = 0;
  std::vector<NewLine> taken_;
  std::size_t added_ = 0;
  std::vector<std::string> remarks_;
  TestedPlaces tested_;
  std::deque<record::Entry<record::Tightening>> tightened_;  // added; they stay where they are
  // None before it is asked for; then `progress_` counts on from it.
  std::unique_ptr<progress::Reassembly> reassembly_;
  std::optional<progress::Progress> progress_;
};

}  // namespace tables
