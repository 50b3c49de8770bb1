#include "exchange/logbook_json.h"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <map>
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
constexpr const char* kLines = "lines";
constexpr const char* kSignatures = "signatures";
constexpr const char* kPhotographs = "photographs";
const std::vector<std::string> kArrays = {kLines, kSignatures, kPhotographs};

std::string pointer_to(const std::string& array, std::size_t index) {
  return fmt::format("/{}/{}", array, index);
}

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
    // A text has its quotes already where it stands.
    const auto found = value.is_string()
                           ? value.get<std::string>()
                           : value.dump(-1, ' ', false, Json::error_handler_t::replace);
    throw InputError(fmt::format("{}: {}; expected {}", pointer.empty() ? "the whole" : pointer,
                                 quantity::quoted(found), expected));
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
// when it is known that the whole is a copy of a logbook. Of the lines nothing is kept but what
// those behind them are held against.
class Elements {
 public:
  void take(const std::string& array, std::size_t index, const Json& element) {
    if (fault_) return;
    const Place place{element, pointer_to(array, index)};
    try {
      if (array == kLines) {
        take_line(place);
      } else if (array == kSignatures) {
        signatures.push_back(signature_at(place));
      } else {
        add_photograph(place);
      }
    } catch (const InputError& error) {
      fault_ = error;
    }
  }

  // What was wrong first; a line has a hash where, and only where, the schema has hashes.
  void refuse_fault(int schema) const {
    if (fault_) throw InputError(*fault_);
    if (schema >= record::kFirstSchemaWithHashes) {
      if (!first_without_hash_) return;
      throw InputError(fmt::format("/lines/{}: \"chain\" is missing", *first_without_hash_));
    }
    if (!first_with_hash_) return;
    throw InputError(
        fmt::format("/lines/{}: nothing is known of \"chain\" in a copy of schema {}; take it once "
                    "more from its logbook",
                    *first_with_hash_, schema));
  }

  std::size_t lines = 0;
  std::vector<record::StoredSignature> signatures;
  std::vector<std::string> photographs;

 private:
  void take_line(const Place& place) {
    auto line = line_at(place);
    if (line.line <= last_line_) {
      place["line"].refuse("a number above that of the line before, from 1");
    }
    last_line_ = line.line;
    if (!ids_.insert(std::move(line.id)).second) place["id"].refuse("an id that no other line has");
    auto& first = line.hash ? first_with_hash_ : first_without_hash_;
    if (!first) first = lines;
    ++lines;
  }

  void add_photograph(const Place& place) {
    auto hash = photograph_at(place);
    if (!photographs.empty() && hash <= photographs.back()) {
      place["sha256"].refuse("one above that of the photograph before");
    }
    photographs.push_back(std::move(hash));
  }

  std::int64_t last_line_ = 0;
  std::optional<std::size_t> first_with_hash_;
  std::optional<std::size_t> first_without_hash_;
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

int schema_at(const Place& place) {
  const auto schema = whole_number_at(place);
  if (schema < 0 || schema > std::numeric_limits<int>::max()) {
    place.refuse("the version of a logbook's schema");
  }
  return static_cast<int>(schema);
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

// Hands over each element of the text, in either form; what is left besides comes back.
Json each_element(std::string_view text, const TakeElement& take) {
  if (!is_in_json_lines(text)) return read_strict_json(text, kArrays, take);
  Json head;
  std::map<std::string, std::size_t> taken;
  each_json_line(text, [&](const Json& object) {
    if (head.is_null()) {
      head = object;
      check_members({head, ""}, {"format", "schema", kLines, kSignatures, kPhotographs});
      return;
    }
    const auto* const array = is_signature(object)    ? kSignatures
                              : is_photograph(object) ? kPhotographs
                                                      : kLines;
    take(array, taken[array]++, object);
  });
  return head;
}

// Nothing is left out between the first line of JSON Lines, which counts them, and their end.
void check_all_there(const Place& head, const char* what, std::size_t found) {
  const auto written = count_at(head[what]);
  if (written == static_cast<std::int64_t>(found)) return;
  throw InputError(fmt::format("{} {} follow where its first line tells of {}; take a whole copy",
                               found, what, written));
}

// What stands around the elements of a document.
void check_document(std::string_view text, const Json& document) {
  if (!document.is_object() || !document.contains("format")) {
    throw InputError(fmt::format(
        "{}: this JSON is no copy of a logbook; expected one that begins with "
        "{{\"format\":\"{}\"; take the file that \"boltwitness export --to FILE\" wrote",
        quantity::quoted(quantity::trimmed(text)), kFormat));
  }
  const Place whole{document, ""};
  check_members(whole, {"format", "schema", kLines}, kArrays);
  if (text_at(whole["format"]) != kFormat) whole["format"].refuse(fmt::format("\"{}\"", kFormat));
  const int schema = schema_at(whole["schema"]);
  if (!whole[kLines].value.is_array()) whole[kLines].refuse("an array of lines");
  check_array_since(whole, kSignatures, schema, record::kFirstSchemaWithSignatures);
  check_array_since(whole, kPhotographs, schema, record::kFirstSchemaWithPhotographs);
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

LogbookJsonReader::LogbookJsonReader(std::string_view text,
                                     const std::function<void()>& element_read)
    : text_(text) {
  if (text_.starts_with(kMarkBeforeJson)) text_.remove_prefix(kMarkBeforeJson.size());
  Elements elements;
  const auto around =
      each_element(text_, [&](const std::string& array, std::size_t index, const Json& element) {
        elements.take(array, index, element);
        if (element_read) element_read();
      });
  const bool is_document = !is_in_json_lines(text_);
  if (is_document) check_document(text_, around);
  const Place whole{around, ""};
  const int schema = schema_at(whole["schema"]);
  elements.refuse_fault(schema);
  if (!is_document) {
    check_all_there(whole, kLines, elements.lines);
    check_all_there(whole, kSignatures, elements.signatures.size());
    check_all_there(whole, kPhotographs, elements.photographs.size());
  }
  signatures_ = std::move(elements.signatures);
  photographs_ = std::move(elements.photographs);
  size_ = {schema, static_cast<std::int64_t>(elements.lines), signatures_.size(),
           photographs_.size()};
}

void LogbookJsonReader::each_line(
    const std::function<void(const record::StoredLine& line)>& take) const {
  (void)each_element(text_, [&](const std::string& array, std::size_t index, const Json& element) {
    if (array == kLines) take(line_at({element, pointer_to(array, index)}));
  });
}

void LogbookJsonReader::each_photograph(
    const std::function<void(std::string_view bytes)>& take) const {
  (void)each_element(text_, [&](const std::string& array, std::size_t index, const Json& element) {
    if (array != kPhotographs) return;
    const auto bytes = quantity::read_base64(element["bytes"].get_ref<const std::string&>());
    if (!bytes) {
      throw InputError(
          fmt::format("{}/bytes: this is no base64 (RFC 4648); take the copy once more from its "
                      "logbook",
                      pointer_to(array, index)));
    }
    take(*bytes);
  });
}

}  // namespace exchange
