#include "exchange/strict_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace exchange {
namespace {

using Json = nlohmann::ordered_json;
using failure::InputError;

// As deep as a copy of a logbook or anything else that is read here can be nested, with room to
// spare; much deeper, and walking through it would exhaust the stack.
constexpr std::size_t kDeepest = 32;

// Looks only whether an object has a member twice, which the parser would take for one, and how
// deep it all is. A pass of its own, since the parser with a callback walks all lines again at the
// end of each.
class MembersOnce : public nlohmann::json_sax<Json> {
 public:
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override {
    members_.emplace_back();
    return enter();
  }
  bool end_object() override {
    members_.pop_back();
    return leave();
  }
  bool start_array(std::size_t) override { return enter(); }
  bool end_array() override { return leave(); }
  bool key(string_t& name) override {
    if (members_.back().insert(name).second) return true;
    throw InputError(fmt::format("{} stands twice in one object; which of the two is meant?",
                                 quantity::quoted(name)));
  }
  // Told by the parser, with its place.
  bool parse_error(std::size_t, const std::string&, const Json::exception&) override {
    return false;
  }

 private:
  bool enter() {
    if (++depth_ <= kDeepest) return true;
    throw InputError(fmt::format(
        "the JSON is nested more than {} deep; nothing that is read here is; take a whole copy",
        kDeepest));
  }
  bool leave() {
    --depth_;
    return true;
  }

  std::size_t depth_ = 0;
  std::vector<std::set<std::string>> members_;
};

// Line and column, both from 1, of a place in the text.
std::string line_and_column(std::string_view text, std::size_t byte) {
  const auto before = text.substr(0, byte == 0 ? 0 : byte - 1);
  const auto line = std::ranges::count(before, '\n') + 1;
  const auto line_start = before.rfind('\n');
  const auto column =
      before.size() - (line_start == std::string_view::npos ? 0 : line_start + 1) + 1;
  return fmt::format("line {}, column {}", line, column);
}

}  // namespace

Json read_strict_json(std::string_view text) {
  try {
    MembersOnce once;
    (void)Json::sax_parse(text, &once);
    return Json::parse(text);
  } catch (const Json::parse_error& error) {
    throw InputError(fmt::format("{}: the JSON breaks off here or goes wrong; take a whole copy",
                                 line_and_column(text, error.byte)));
  } catch (const Json::out_of_range&) {
    throw InputError("a number in the JSON is beyond what can be kept");
  }
}

}  // namespace exchange
