#include "exchange/strict_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "exchange/json_look.h"
#include "failure/failure.h"
#include "quantity/number_text.h"

namespace exchange {
namespace {

using Json = nlohmann::ordered_json;
using failure::InputError;

// More than any object that is read here has; members are looked up one after the other.
constexpr std::size_t kMostMembers = 1000;

// More values than one element that is handed over holds, or all that is left of the text: a line
// that names ten thousand positions has some ten thousand rows of a few members.
constexpr std::size_t kMostValues = 1'000'000;

// Line and column, both from 1, of a place in the text.
std::string line_and_column(std::string_view text, std::size_t byte) {
  const auto before = text.substr(0, byte == 0 ? 0 : byte - 1);
  const auto line = std::ranges::count(before, '\n') + 1;
  const auto line_start = before.rfind('\n');
  const auto column =
      before.size() - (line_start == std::string_view::npos ? 0 : line_start + 1) + 1;
  return fmt::format("line {}, column {}", line, column);
}

// Puts the values together as they are met.
class Building : public nlohmann::json_sax<Json> {
 public:
  Building(std::string_view text, const std::vector<std::string>& arrays, const TakeElement& take)
      : text_(text), arrays_(arrays), take_(take) {}

  [[nodiscard]] Json whole() && { return std::move(whole_); }

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override { return put(std::move(value)); }
  bool binary(binary_t&) override { return false; }  // no JSON text holds any
  bool start_object(std::size_t) override { return enter(Json::object()); }
  bool end_object() override { return leave(); }
  bool start_array(std::size_t) override { return enter(Json::array()); }
  bool end_array() override { return leave(); }

  bool key(string_t& name) override {
    auto& object = open_.back();
    if (!object.names.insert(name).second) {
      throw InputError(fmt::format("{} stands twice in one object; which of the two is meant?",
                                   quantity::quoted(name)));
    }
    if (object.names.size() > kMostMembers) {
      throw InputError(
          fmt::format("an object of the JSON has more than {} members; nothing that is read here "
                      "has; take a whole copy",
                      kMostMembers));
    }
    object.name = std::move(name);
    return true;
  }

  bool parse_error(std::size_t byte, const std::string&, const Json::exception& error) override {
    if (dynamic_cast<const Json::out_of_range*>(&error) != nullptr) {
      throw InputError("a number in the JSON is beyond what can be kept");
    }
    throw InputError(fmt::format("{}: the JSON breaks off here or goes wrong; take a whole copy",
                                 line_and_column(text_, byte)));
  }

 private:
  // An object or array whose end has not come.
  struct Open {
    Json value;
    std::string name;             // of the member whose value comes next
    std::set<std::string> names;  // of all members so far
    std::size_t handed_over = 0;  // elements
  };

  bool enter(Json empty) {
    if (open_.size() >= kDeepestJson) refuse_deep_json();
    open_.push_back({std::move(empty), {}, {}});
    return true;
  }

  bool leave() {
    auto value = std::move(open_.back().value);
    open_.pop_back();
    return put(std::move(value));
  }

  // The value is that of the whole, of a member or of an element.
  bool put(Json value) {
    if (++held_ > kMostValues) {
      throw InputError(fmt::format(
          "more than {} values of the JSON belong together; nothing that is read here has as many; "
          "take a whole copy",
          kMostValues));
    }
    if (open_.empty()) {
      whole_ = std::move(value);
    } else if (auto& at = open_.back(); at.value.is_object()) {
      at.value[at.name] = std::move(value);
    } else if (is_handed_over()) {
      take_(open_.front().name, at.handed_over++, value);
      held_ = 0;
    } else {
      at.value.push_back(std::move(value));
    }
    return true;
  }

  [[nodiscard]] bool is_handed_over() const {
    return open_.size() == 2 && open_.front().value.is_object() &&
           std::ranges::find(arrays_, open_.front().name) != arrays_.end();
  }

  std::string_view text_;
  const std::vector<std::string>& arrays_;
  const TakeElement& take_;
  std::vector<Open> open_;
  std::size_t held_ = 0;  // values since the last that was handed over
  Json whole_;
};

}  // namespace

Json read_strict_json(std::string_view text, const std::vector<std::string>& arrays,
                      const TakeElement& take) {
  Building building(text, arrays, take);
  (void)Json::sax_parse(text, &building);
  return std::move(building).whole();
}

}  // namespace exchange
