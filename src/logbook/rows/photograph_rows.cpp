#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/child_rows.h"
#include "logbook/rows/empty_table.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"
#include "quantity/ascii.h"

namespace logbook {
namespace {

// As record/photograph.h has them.
int side_at(SQLite::Statement& row, int column) {
  return integer_at(row, column, 1, record::kMostPhotographPixels);
}

std::string sha256_at(SQLite::Statement& row, int column) {
  constexpr std::size_t kDigits = 64;
  auto hash = text_at(row, column);
  if (!quantity::is_hexadecimal(hash, kDigits)) {
    refuse_cell(row, column, "64 hexadecimal digits");
  }
  return hash;
}

record::Photograph photograph_of(SQLite::Statement& row) {
  record::Photograph photograph;
  photograph.joint = code_or_empty_at(row, 0);
  photograph.deviation = text_at(row, 1);
  photograph.note = text_at(row, 2);
  photograph.format = word_at<record::PictureFormat>(row, 3);
  photograph.width = side_at(row, 4);
  photograph.height = side_at(row, 5);
  photograph.length = integer_at(row, 6, 1, static_cast<int>(record::kMostPhotographBytes));
  photograph.sha256 = sha256_at(row, 7);
  return photograph;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Photograph& photograph,
                 Rows<record::Photograph>) {
  auto& row = writer.into("photograph", R"(
      (entry_id, joint_code, deviation, note, format, width_px, height_px,
       length_bytes, sha256)
      VALUES (:id, :joint, :deviation, :note, :format, :width, :height, :length, :sha256))");
  row.bind(":id", id);
  row.bind(":joint", photograph.joint);
  row.bind(":deviation", photograph.deviation);
  row.bind(":note", photograph.note);
  row.bind(":format", text_of(photograph.format));
  row.bind(":width", photograph.width);
  row.bind(":height", photograph.height);
  row.bind(":length", photograph.length);
  row.bind(":sha256", photograph.sha256);
  row.exec();
  insert_positions(writer, "photograph_position", id, photograph.positions);
}

std::vector<record::Entry<record::Photograph>> read_rows(SQLite::Database& database,
                                                         const RowFilter& filter,
                                                         Rows<record::Photograph>) {
  if (is_empty(database, "photograph")) return {};
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.joint_code, rows.deviation, rows.note, rows.format, rows.width_px,
             rows.height_px, rows.length_bytes, rows.sha256, p.position
      FROM photograph rows LEFT JOIN entry e ON e.id = rows.entry_id
                           LEFT JOIN photograph_position p ON p.entry_id = rows.entry_id
      {} ORDER BY rows.entry_id, p.position)",
                                              kStampColumns, filter.where("joint_code")));
  filter.bind(row);
  return gathered<record::Photograph>(row, filter, photograph_of,
                                      [](record::Photograph& photograph, SQLite::Statement& each) {
                                        if (!is_null_at(each, 8))
                                          photograph.positions.push_back(position_at(each, 8));
                                      });
}

}  // namespace logbook
