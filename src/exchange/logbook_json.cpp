#include "exchange/logbook_json.h"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "exchange/strict_json.h"
#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/base64.h"
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

// What is taken element by element.
const std::vector<std::string> kArrays = {"lines", "signatures", "photographs"};

// As the library writes it. Most text needs nothing but its quotes.
void add_text(std::string& json, std::string_view text) {
  const auto stays = [](char c) { return quantity::is_plain(c) && c != '"' && c != '\\'; };
  if (std::ranges::all_of(text, stays)) {
    json += '"';
    json += text;
    json += '"';
  } else {
    json += quantity::visible_json(Json(text).dump());
  }
}

void add_member(std::string& json, std::string_view name, std::string_view text) {
  add_text(json, name);
  json += ':';
  add_text(json, text);
}

void add_value(std::string& json, const record::ColumnValue& value) {
  if (const auto* text = std::get_if<std::string>(&value)) {
    add_text(json, *text);
  } else if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    fmt::format_to(std::back_inserter(json), FMT_COMPILE("{}"), *whole);
  } else if (const auto* number = std::get_if<double>(&value)) {
    json += Json(*number).dump();
  } else {
    json += "null";
  }
}

// Adds the elements with commas between them.
template <class List, class Add>
void add_list(std::string& json, const List& list, const Add& add) {
  bool is_first = true;
  for (const auto& each : list) {
    if (!std::exchange(is_first, false)) json += ',';
    add(each);
  }
}

void add_members(std::string& json,
                 std::initializer_list<std::pair<std::string_view, std::string_view>> members) {
  add_list(json, members,
           [&](const auto& member) { add_member(json, member.first, member.second); });
}

void add_hash(std::string& json, const record::StoredHash& hash) {
  json += ",\"chain\":{";
  add_members(json, {{"device_before", hash.device_before},
                     {"file_before", hash.file_before},
                     {"later", hash.later},
                     {"hash", hash.hash}});
  json += '}';
}

void add_signature(std::string& json, const record::StoredSignature& signature) {
  json += '{';
  add_members(json, {{"line_id", signature.line_id},
                     {"public_key", signature.public_key},
                     {"by", signature.by},
                     {"at", signature.at},
                     {"signature", signature.signature}});
  json += '}';
}

void add_row(std::string& json, const record::StoredRow& row) {
  json += '{';
  add_list(json, row, [&](const auto& cell) {
    add_text(json, cell.first);
    json += ':';
    add_value(json, cell.second);
  });
  json += '}';
}

void add_table(std::string& json, const record::StoredTable& table) {
  add_text(json, table.name);
  json += ":[";
  add_list(json, table.rows, [&](const auto& row) { add_row(json, row); });
  json += ']';
}

void add_line(std::string& json, const record::StoredLine& line) {
  fmt::format_to(std::back_inserter(json), "{{\"line\":{},", line.line);
  add_members(json, {{"id", line.id},
                     {"kind", line.kind},
                     {"by", line.by},
                     {"done_at", line.done_at},
                     {"entered_at", line.entered_at},
                     {"device", line.device}});
  json += line.struck ? ",\"struck\":true" : ",\"struck\":false";
  json += ",\"rows\":{";
  add_list(json, line.tables, [&](const auto& table) { add_table(json, table); });
  json += '}';
  if (line.hash) add_hash(json, *line.hash);
  json += '}';
}

// What the library says of text that is none.
template <class Work>
void writing(const Work& work) {
  try {
    work();
  } catch (const Json::type_error&) {
    throw InputError("this logbook holds text that is not UTF-8 and cannot be written as JSON");
  }
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

// An object with these members; others of these names may be there, and none besides.
void check_members(const Place& place, std::initializer_list<std::string_view> names,
                   const std::vector<std::string>& may_be_there = {}) {
  if (!place.value.is_object()) place.refuse("an object in braces");
  for (const auto name : names) {
    if (!place.value.contains(name)) {
      throw InputError(fmt::format("{}: \"{}\" is missing", place.pointer, name));
    }
  }
  for (const auto& member : place.value.items()) {
    if (std::ranges::find(names, member.key()) != names.end() ||
        std::ranges::find(may_be_there, member.key()) != may_be_there.end()) {
      continue;
    }
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

std::string sha256_at(const Place& place) {
  constexpr std::size_t kDigits = 64;
  auto hash = text_at(place);
  if (!quantity::is_hexadecimal(hash, kDigits)) {
    place.refuse("a SHA-256 as 64 hexadecimal digits");
  }
  return hash;
}

// What a photograph is called by; its bytes are left for each_photograph.
std::string photograph_at(const Place& place) {
  check_members(place, {"sha256", "bytes"});
  if (!place.value["bytes"].is_string()) place["bytes"].refuse("the bytes in base64");
  return sha256_at(place["sha256"]);
}

// Lines, signatures and photographs as they come out of the text. What is wrong with one is told
// when it is known that the whole is a copy of a logbook.
class Elements {
 public:
  void take(const std::string& array, std::size_t index, const Json& element) {
    if (fault_) return;
    const Place place{element, fmt::format("/{}/{}", array, index)};
    try {
      if (array == "lines") {
        add_line(place);
      } else if (array == "signatures") {
        signatures.push_back(signature_at(place));
      } else {
        add_photograph(place);
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
  std::vector<std::string> photographs;

 private:
  void add_line(const Place& place) {
    auto line = line_at(place);
    if (line.line <= (lines.empty() ? 0 : lines.back().line)) {
      place["line"].refuse("a number above that of the line before, from 1");
    }
    if (!ids_.insert(line.id).second) place["id"].refuse("an id that no other line has");
    lines.push_back(std::move(line));
  }

  void add_photograph(const Place& place) {
    auto hash = photograph_at(place);
    if (!photographs.empty() && hash <= photographs.back()) {
      place["sha256"].refuse("one above that of the photograph before");
    }
    photographs.push_back(std::move(hash));
  }

  std::unordered_set<std::string> ids_;
  std::optional<InputError> fault_;
};

// An array is there where, and only where, the schema has what stands in it.
void check_array_since(const Place& whole, const char* name, std::int64_t schema, int since) {
  const bool has_them = schema >= since;
  if (has_them != whole.value.contains(name)) {
    throw InputError(
        fmt::format("a copy of schema {} {} \"{}\"; take it once more from its logbook", schema,
                    has_them ? "has" : "has no", name));
  }
  if (has_them && !whole[name].value.is_array()) {
    whole[name].refuse(fmt::format("an array of {}", name));
  }
}

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
  return {schema, std::move(elements.lines), std::move(elements.signatures),
          std::move(elements.photographs)};
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

// Each object of the text, the first of which says what it is and how many follow.
template <class Take>
void each_json_line(std::string_view text, const Take& take) {
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
    take(object);
  }
}

bool is_signature(const Json& object) {
  return object.is_object() && object.contains("public_key");
}
bool is_photograph(const Json& object) { return object.is_object() && object.contains("bytes"); }

record::LogbookCopy read_json_lines(std::string_view text) {
  Json head;
  Elements elements;
  each_json_line(text, [&](const Json& object) {
    if (head.is_null()) {
      head = object;
      check_members({head, ""}, {"format", "schema", "lines", "signatures", "photographs"});
    } else if (is_signature(object)) {
      elements.take("signatures", elements.signatures.size(), object);
    } else if (is_photograph(object)) {
      elements.take("photographs", elements.photographs.size(), object);
    } else {
      elements.take("lines", elements.lines.size(), object);
    }
  });
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
  check_all_there("photographs", copy.photographs.size());
  return copy;
}

}  // namespace

void LogbookJsonWriter::begin(const record::CopySize& size) {
  schema_ = size.schema;
  text_ = form_ == LogbookForm::JsonLines
              ? fmt::format(
                    "{{\"format\":\"{}\",\"schema\":{},\"lines\":{},\"signatures\":{},"
                    "\"photographs\":{}}}\n",
                    kLinesFormat, size.schema, size.lines, size.signatures, size.photographs)
              : fmt::format("{{\"format\":\"{}\",\"schema\":{},\"lines\":[", kFormat, size.schema);
}

void LogbookJsonWriter::take(const record::StoredLine& line) {
  begin_element(has_lines_);
  writing([&] { add_line(text_, line); });
  end_element();
}

void LogbookJsonWriter::end(const std::vector<record::StoredSignature>& signatures,
                            const std::vector<std::string>& photographs) {
  end_array(true);
  begin_array("signatures", record::kFirstSchemaWithSignatures);
  bool has_elements = false;
  for (const auto& each : signatures) {
    begin_element(has_elements);
    writing([&] { add_signature(text_, each); });
    end_element();
  }
  end_array(has_elements);
  begin_array("photographs", record::kFirstSchemaWithPhotographs);
  has_elements = false;
  for (const auto& hash : photographs) {
    begin_element(has_elements);
    text_ += fmt::format("{{\"sha256\":\"{}\",\"bytes\":\"", hash);
    text_ += quantity::write_base64(photograph_with_(hash));
    text_ += "\"}";
    end_element();
  }
  end_array(has_elements);
  if (form_ == LogbookForm::Document) text_ += "}\n";
  out_(text_);
  text_.clear();
}

void LogbookJsonWriter::begin_array(const char* name, int since) {
  is_open_ = form_ == LogbookForm::Document && schema_ >= since;
  if (is_open_) text_ += fmt::format(",\"{}\":[", name);
}

void LogbookJsonWriter::end_array(bool has_elements) {
  if (is_open_) text_ += has_elements ? "\n]" : "]";
}

void LogbookJsonWriter::begin_element(bool& has_elements) {
  const bool is_first = !std::exchange(has_elements, true);
  if (form_ == LogbookForm::Document) text_ += is_first ? "\n" : ",\n";
}

void LogbookJsonWriter::end_element() {
  constexpr std::size_t kPieceBytes = 64 * 1024;
  if (form_ == LogbookForm::JsonLines) text_ += '\n';
  if (text_.size() < kPieceBytes) return;
  out_(text_);
  text_.clear();
}

std::string write_rows_json(const record::StoredLine& line) {
  std::string json = "{";
  writing([&] { add_list(json, line.tables, [&](const auto& table) { add_table(json, table); }); });
  return json + '}';
}

record::LogbookCopy read_logbook_json(std::string_view text) {
  if (text.starts_with(kMarkBeforeJson)) text.remove_prefix(kMarkBeforeJson.size());
  if (is_in_json_lines(text)) return read_json_lines(text);
  Elements elements;
  const auto document = read_strict_json(
      text, kArrays, [&](const std::string& array, std::size_t index, const Json& element) {
        elements.take(array, index, element);
      });
  if (!document.is_object() || !document.contains("format")) {
    throw InputError(fmt::format(
        "{}: this JSON is no copy of a logbook; expected one that begins with "
        "{{\"format\":\"{}\"; take the file that \"boltwitness export --to FILE\" wrote",
        quantity::quoted(quantity::trimmed(text)), kFormat));
  }
  const Place whole{document, ""};
  check_members(whole, {"format", "schema", "lines"}, kArrays);
  if (text_at(whole["format"]) != kFormat) whole["format"].refuse(fmt::format("\"{}\"", kFormat));
  const int schema = schema_at(whole["schema"]);
  if (!whole["lines"].value.is_array()) whole["lines"].refuse("an array of lines");
  check_array_since(whole, "signatures", schema, record::kFirstSchemaWithSignatures);
  check_array_since(whole, "photographs", schema, record::kFirstSchemaWithPhotographs);
  return copy_of(schema, std::move(elements));
}

void each_photograph(std::string_view text, const std::function<void(std::string_view)>& take) {
  const auto take_one = [&](std::size_t index, const Json& element) {
    const auto bytes = quantity::read_base64(element["bytes"].get_ref<const std::string&>());
    if (!bytes) {
      throw InputError(
          fmt::format("/photographs/{}/bytes: this is no base64 (RFC 4648); take "
                      "the copy once more from its logbook",
                      index));
    }
    take(*bytes);
  };
  if (is_in_json_lines(text)) {
    std::size_t index = 0;
    each_json_line(text, [&](const Json& object) {
      if (is_photograph(object)) take_one(index++, object);
    });
    return;
  }
  (void)read_strict_json(text, kArrays,
                         [&](const std::string& array, std::size_t index, const Json& element) {
                           if (array == "photographs") take_one(index, element);
                         });
}

}  // namespace exchange
