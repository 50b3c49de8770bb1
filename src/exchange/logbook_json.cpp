#include "exchange/logbook_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "exchange/strict_json.h"
#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "quantity/visible_text.h"
#include "record/moment.h"
#include "record/typed_text.h"

namespace exchange {
namespace {

using Json = nlohmann::ordered_json;
using failure::InputError;

constexpr const char* kFormat = "boltwitness logbook";
constexpr const char* kLinesFormat = "boltwitness logbook lines";
constexpr std::string_view kMarkBeforeJson = "\xEF\xBB\xBF";

Json json_of(const record::ColumnValue& value) {
  return std::visit(
      []<class Value>(const Value& held) -> Json {
        if constexpr (std::is_same_v<Value, std::monostate>) {
          return nullptr;
        } else {
          return held;
        }
      },
      value);
}

Json json_of(const record::StoredHash& hash) {
  return {{"device_before", hash.device_before},
          {"file_before", hash.file_before},
          {"later", hash.later},
          {"hash", hash.hash}};
}

Json json_of(const record::StoredSignature& signature) {
  return {{"line_id", signature.line_id},
          {"public_key", signature.public_key},
          {"by", signature.by},
          {"at", signature.at},
          {"signature", signature.signature}};
}

Json json_of(const record::StoredLine& line) {
  auto rows = Json::object();
  for (const auto& table : line.tables) {
    auto& stored = rows[table.name] = Json::array();
    for (const auto& row : table.rows) {
      auto columns = Json::object();
      for (const auto& [name, value] : row) columns[name] = json_of(value);
      stored.push_back(std::move(columns));
    }
  }
  Json whole = {{"line", line.line},     {"id", line.id},           {"kind", line.kind},
                {"by", line.by},         {"done_at", line.done_at}, {"entered_at", line.entered_at},
                {"device", line.device}, {"struck", line.struck},   {"rows", std::move(rows)}};
  if (line.hash) whole["chain"] = json_of(*line.hash);
  return whole;
}

// A value in the text and where it stands.
struct Place {
  const Json& value;
  std::string pointer;

  [[noreturn]] void refuse(std::string_view expected) const {
    throw InputError(fmt::format(
        "{}: {}; expected {}", pointer.empty() ? "the whole" : pointer,
        quantity::quoted(value.dump(-1, ' ', false, Json::error_handler_t::replace)), expected));
  }

  [[nodiscard]] Place operator[](const char* name) const {
    return {value[name], fmt::format("{}/{}", pointer, name)};
  }
  [[nodiscard]] Place operator[](std::size_t index) const {
    return {value[index], fmt::format("{}/{}", pointer, index)};
  }
};

// An object with just these members.
void check_members(const Place& place, std::initializer_list<std::string_view> names) {
  if (!place.value.is_object()) place.refuse("an object in braces");
  for (const auto name : names) {
    if (!place.value.contains(name)) {
      throw InputError(fmt::format("{}: \"{}\" is missing", place.pointer, name));
    }
  }
  for (const auto& member : place.value.items()) {
    if (std::ranges::find(names, member.key()) != names.end()) continue;
    throw InputError(fmt::format("{}: nothing is known of {}; check its spelling", place.pointer,
                                 quantity::quoted(member.key())));
  }
}

std::string text_at(const Place& place) {
  if (!place.value.is_string()) place.refuse("a text");
  const auto& text = place.value.get_ref<const std::string&>();
  // As logbook/rows/cells.h takes them: the blanks of a line that was typed may be tabs or line
  // ends.
  auto without_blanks = text;
  std::erase_if(without_blanks, [](char c) { return c == '\t' || c == '\n' || c == '\r'; });
  if (!record::is_one_line(without_blanks)) place.refuse("one line without control characters");
  return text;
}

std::int64_t whole_number_at(const Place& place) {
  if (!place.value.is_number_integer() ||
      (place.value.is_number_unsigned() &&
       place.value.get<std::uint64_t>() > std::numeric_limits<std::int64_t>::max())) {
    place.refuse("a whole number");
  }
  return place.value.get<std::int64_t>();
}

bool truth_at(const Place& place) {
  if (!place.value.is_boolean()) place.refuse("true or false");
  return place.value.get<bool>();
}

// An id as it is written everywhere (RFC 9562): lower case, with hyphens; nothing for another text.
bool is_uuid(std::string_view text) {
  constexpr std::string_view kShape = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx";
  if (text.size() != kShape.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool is_digit = quantity::is_digit(text[i]) || (text[i] >= 'a' && text[i] <= 'f');
    if (kShape[i] == '-' ? text[i] != '-' : !is_digit) return false;
  }
  return true;
}

std::string id_at(const Place& place) {
  auto id = text_at(place);
  if (!is_uuid(id)) place.refuse("a UUID such as 01970000-0000-7000-8000-000000000001");
  return id;
}

std::string time_at(const Place& place) {
  auto text = text_at(place);
  try {
    (void)record::read_utc(text);
    return text;
  } catch (const InputError&) {
    // Told below, with the one form that is taken here.
  }
  place.refuse("a time such as 2026-03-02T08:15:00.000Z");
}

record::ColumnValue column_at(const Place& place) {
  if (place.value.is_null()) return std::monostate();
  if (place.value.is_string()) return text_at(place);
  if (place.value.is_number_float()) return place.value.get<double>();
  if (place.value.is_number_integer()) return whole_number_at(place);
  place.refuse("a text, a number or null");
}

std::vector<record::StoredTable> tables_at(const Place& place) {
  if (!place.value.is_object()) place.refuse("an object with an array for each table");
  std::vector<record::StoredTable> tables;
  for (const auto& [name, rows] : place.value.items()) {
    const auto table = place[name.c_str()];
    if (!rows.is_array()) table.refuse("an array of rows");
    auto& stored = tables.emplace_back(record::StoredTable{name, {}}).rows;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const auto row = table[i];
      if (!row.value.is_object()) row.refuse("a row in braces");
      auto& columns = stored.emplace_back();
      for (const auto& member : row.value.items()) {
        columns.emplace_back(member.key(), column_at(row[member.key().c_str()]));
      }
    }
  }
  return tables;
}

record::StoredHash hash_at(const Place& place) {
  check_members(place, {"device_before", "file_before", "later", "hash"});
  return {text_at(place["device_before"]), text_at(place["file_before"]), text_at(place["later"]),
          text_at(place["hash"])};
}

record::StoredLine line_at(const Place& place) {
  const bool has_hash = place.value.is_object() && place.value.contains("chain");
  if (has_hash) {
    check_members(place, {"line", "id", "kind", "by", "done_at", "entered_at", "device", "struck",
                          "rows", "chain"});
  } else {
    check_members(
        place, {"line", "id", "kind", "by", "done_at", "entered_at", "device", "struck", "rows"});
  }
  record::StoredLine line{whole_number_at(place["line"]), id_at(place["id"]),
                          text_at(place["kind"]),         text_at(place["by"]),
                          time_at(place["done_at"]),      time_at(place["entered_at"]),
                          id_at(place["device"]),         truth_at(place["struck"]),
                          tables_at(place["rows"]),       std::nullopt};
  if (has_hash) line.hash = hash_at(place["chain"]);
  return line;
}

record::StoredSignature signature_at(const Place& place) {
  check_members(place, {"line_id", "public_key", "by", "at", "signature"});
  return {id_at(place["line_id"]), text_at(place["public_key"]), text_at(place["by"]),
          time_at(place["at"]), text_at(place["signature"])};
}

// Lines and signatures as they come out of the text. What is wrong with one is told when it is
// known that the whole is a copy of a logbook.
class Elements {
 public:
  void take(const std::string& array, std::size_t index, const Json& element) {
    if (fault_) return;
    const Place place{element, fmt::format("/{}/{}", array, index)};
    try {
      if (array == "lines") {
        add_line(place);
      } else {
        signatures.push_back(signature_at(place));
      }
    } catch (const InputError& error) {
      fault_ = error;
    }
  }

  void refuse_fault() const {
    if (fault_) throw InputError(*fault_);
  }

  std::vector<record::StoredLine> lines;
  std::vector<record::StoredSignature> signatures;

 private:
  void add_line(const Place& place) {
    auto line = line_at(place);
    if (line.line <= (lines.empty() ? 0 : lines.back().line)) {
      place["line"].refuse("a number above that of the line before, from 1");
    }
    if (!ids_.insert(line.id).second) place["id"].refuse("an id that no other line has");
    lines.push_back(std::move(line));
  }

  std::unordered_set<std::string> ids_;
  std::optional<InputError> fault_;
};

// A line has a hash where, and only where, the schema has hashes.
void check_hashes_of(int schema, const std::vector<record::StoredLine>& lines) {
  const bool have_hashes = schema >= record::kFirstSchemaWithHashes;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].hash.has_value() == have_hashes) continue;
    throw InputError(
        have_hashes ? fmt::format("/lines/{}: \"chain\" is missing", i)
                    : fmt::format("/lines/{}: nothing is known of \"chain\" in a copy of schema "
                                  "{}; take it once more from its logbook",
                                  i, schema));
  }
}

template <class Stored>
std::string text_of(const Stored& stored) {
  try {
    return quantity::visible_json(json_of(stored).dump());
  } catch (const Json::type_error&) {
    throw InputError("this logbook holds text that is not UTF-8 and cannot be written as JSON");
  }
}

int schema_at(const Place& place) {
  const auto schema = whole_number_at(place);
  if (schema < 0 || schema > std::numeric_limits<int>::max()) {
    place.refuse("the version of a logbook's schema");
  }
  return static_cast<int>(schema);
}

record::LogbookCopy copy_of(int schema, Elements elements) {
  elements.refuse_fault();
  check_hashes_of(schema, elements.lines);
  return {schema, std::move(elements.lines), std::move(elements.signatures)};
}

std::string_view first_line_of(std::string_view text) { return text.substr(0, text.find('\n')); }

bool is_in_json_lines(std::string_view text) {
  constexpr std::size_t kLongestHead = 200;
  if (first_line_of(text).size() > kLongestHead) return false;
  const auto head = Json::parse(first_line_of(text), nullptr, false);
  return head.is_object() && head.contains("format") && head["format"] == kLinesFormat;
}

// Where an object in one line of the text says how many follow it.
std::int64_t count_at(const Place& place) {
  const auto count = whole_number_at(place);
  if (count < 0) place.refuse("how many there are");
  return count;
}

record::LogbookCopy read_json_lines(std::string_view text) {
  Json head;
  Elements elements;
  std::size_t number = 0;
  while (!text.empty()) {
    const auto line = first_line_of(text);
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    if (quantity::trimmed(line).empty()) continue;
    ++number;
    Json object;
    try {
      object = read_strict_json(line, {}, {});
    } catch (const InputError& error) {
      throw InputError(fmt::format("object {} of the JSON Lines: {}", number, error.what()));
    }
    if (number == 1) {
      head = std::move(object);
      check_members({head, ""}, {"format", "schema", "lines", "signatures"});
    } else if (object.is_object() && object.contains("public_key")) {
      elements.take("signatures", elements.signatures.size(), object);
    } else {
      elements.take("lines", elements.lines.size(), object);
    }
  }
  const Place whole{head, ""};
  auto copy = copy_of(schema_at(whole["schema"]), std::move(elements));
  const auto check_all_there = [&](const char* what, std::size_t found) {
    const auto written = count_at(whole[what]);
    if (written == static_cast<std::int64_t>(found)) return;
    throw InputError(fmt::format("{} {} follow where its first line tells of {}; take a whole copy",
                                 found, what, written));
  };
  check_all_there("lines", copy.lines.size());
  check_all_there("signatures", copy.signatures.size());
  return copy;
}

}  // namespace

std::string write_logbook_json(const record::LogbookCopy& copy) {
  auto text = fmt::format("{{\"format\":\"{}\",\"schema\":{},\"lines\":[", kFormat, copy.schema);
  for (const auto& line : copy.lines) {
    text += &line == &copy.lines.front() ? "\n" : ",\n";
    text += text_of(line);
  }
  text += "\n]";
  if (copy.schema >= record::kFirstSchemaWithSignatures) {
    std::string signatures;
    for (const auto& signature : copy.signatures) {
      signatures += signatures.empty() ? "" : ",";
      signatures += text_of(signature);
    }
    text += fmt::format(",\"signatures\":[{}]", signatures);
  }
  return text + "}\n";
}

std::string write_logbook_json_lines(const record::LogbookCopy& copy) {
  auto text =
      fmt::format("{{\"format\":\"{}\",\"schema\":{},\"lines\":{},\"signatures\":{}}}\n",
                  kLinesFormat, copy.schema, copy.lines.size(), copy.signatures.size());
  for (const auto& line : copy.lines) text += text_of(line) + '\n';
  for (const auto& signature : copy.signatures) text += text_of(signature) + '\n';
  return text;
}

record::LogbookCopy read_logbook_json(std::string_view text) {
  if (text.starts_with(kMarkBeforeJson)) text.remove_prefix(kMarkBeforeJson.size());
  if (is_in_json_lines(text)) return read_json_lines(text);
  Elements elements;
  const auto document =
      read_strict_json(text, {"lines", "signatures"},
                       [&](const std::string& array, std::size_t index, const Json& element) {
                         elements.take(array, index, element);
                       });
  if (!document.is_object() || !document.contains("format")) {
    throw InputError(fmt::format(
        "{}: this JSON is no copy of a logbook; expected one that begins with "
        "{{\"format\":\"{}\"; take the file that \"boltwitness export --to FILE\" wrote",
        quantity::quoted(quantity::trimmed(text)), kFormat));
  }
  const Place whole{document, ""};
  if (document.contains("signatures")) {
    check_members(whole, {"format", "schema", "lines", "signatures"});
  } else {
    check_members(whole, {"format", "schema", "lines"});
  }
  if (text_at(whole["format"]) != kFormat) whole["format"].refuse(fmt::format("\"{}\"", kFormat));
  const int schema = schema_at(whole["schema"]);
  const bool may_be_signed = schema >= record::kFirstSchemaWithSignatures;
  if (may_be_signed != document.contains("signatures")) {
    throw InputError(
        fmt::format("a copy of schema {} {} \"signatures\"; take it once more from "
                    "its logbook",
                    schema, may_be_signed ? "has" : "has no"));
  }
  if (!whole["lines"].value.is_array()) whole["lines"].refuse("an array of lines");
  if (may_be_signed && !whole["signatures"].value.is_array()) {
    whole["signatures"].refuse("an array of signatures");
  }
  return copy_of(schema, std::move(elements));
}

}  // namespace exchange
