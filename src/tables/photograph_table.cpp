#include <fmt/format.h>

#include "act/option_error.h"
#include "act/photograph_entry.h"
#include "record/picture.h"
#include "tables/csv_table.h"
#include "tables/stamp_cells.h"

namespace tables {
namespace {

std::vector<std::vector<std::string>> photograph_rows(const record::Job& job) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& entry : job.photographs) {
    const auto& photograph = entry.content;
    auto& row = rows.emplace_back(std::vector<std::string>{
        record::subject_of(photograph), file_name_of(photograph), photograph.note});
    add_stamp_cells(row, entry.stamp);
  }
  return rows;
}

void take_photograph(const TableRow& row, Intake& intake) {
  const auto file = row["file"];
  const auto picture =
      act::of_option("file", [&] { return record::read_picture(intake.file_beside(file)); });
  const act::PhotographSubjects subjects{
      [&](const std::string& code) { return intake.joint_or_refuse(code); },
      [&] { return intake.job(); }, intake.now()};
  intake.add(row,
             act::of_option("where",
                            [&] {
                              return act::photograph_from({row["where"], row["note"], {}},
                                                          act::photograph_of(picture), subjects);
                            }),
             file);
}

}  // namespace

std::string file_name_of(const record::Photograph& photograph) {
  constexpr std::size_t kDigits = 16;
  return fmt::format("photograph-{}.{}", photograph.sha256.substr(0, kDigits),
                     record::ending_of(photograph.format));
}

const CsvTable& photograph_table() {
  static const CsvTable table{"photographs",
                              {"where", "file", "note", "by", "at"},
                              {},
                              {"where", "file"},
                              {},
                              photograph_rows,
                              take_photograph,
                              true};
  return table;
}

}  // namespace tables
