#include "screen/photograph_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/photograph_in_words.h"

namespace screen {
namespace {

nlohmann::ordered_json photograph_json(const ShownPhotograph& entry) {
  const auto& [stamp, photograph] = entry;
  return {{"line", stamp.line},
          {"id", stamp.id},
          {"of", record::subject_of(photograph)},
          {"joint", text_or_null(photograph.joint)},
          {"positions", photograph.positions},
          {"deviation", text_or_null(photograph.deviation)},
          {"note", photograph.note},
          {"format", record::word_of(photograph.format)},
          {"width", photograph.width},
          {"height", photograph.height},
          {"bytes", photograph.length},
          {"sha256", photograph.sha256},
          {"by", stamp.by},
          {"done_at", record::write_utc(stamp.done_at)}};
}

}  // namespace

std::string photograph_lines(std::span<const ShownPhotograph* const> photographs,
                             const words::Page& page) {
  std::string text;
  for (const auto* entry : photographs) {
    const auto& [stamp, photograph] = *entry;
    text += words::wrapped(
        fmt::format("line {}, {}{}; {}, {}; {}", stamp.line, record::subject_of(photograph),
                    photograph.note.empty() ? "" : ": " + photograph.note, stamp.by,
                    record::write_local(stamp.done_at), words::picture_in_words(photograph)),
        page.width, "  ", "    ");
  }
  return text;
}

std::string photographs_text(std::span<const ShownPhotograph* const> photographs,
                             const words::Page& page) {
  if (photographs.empty()) return "no photograph so far\n";
  return words::counted(photographs.size(), "photograph") + '\n' +
         photograph_lines(photographs, page) +
         words::wrapped(fmt::format("to look at one: boltwitness photo {} --to FILE",
                                    photographs.back()->stamp.line),
                        page.width, "", "  ");
}

nlohmann::ordered_json photograph_rows_json(std::span<const ShownPhotograph* const> photographs) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto* entry : photographs) rows.push_back(photograph_json(*entry));
  return rows;
}

std::string photographs_json(std::span<const ShownPhotograph* const> photographs) {
  return json_text(kPhotographsFormat, {{"photographs", photograph_rows_json(photographs)}});
}

}  // namespace screen
