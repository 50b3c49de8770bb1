#include "phone/deed.h"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>
#include <utility>

#include "exchange/strict_json.h"
#include "failure/failure.h"
#include "logbook/digest.h"
#include "quantity/number_text.h"

namespace phone {
namespace {

constexpr std::size_t kLongestText = 4'000;
constexpr std::int64_t kLatestMoment = 253'402'300'799'999;  // the end of the year 9999

nlohmann::ordered_json object_in(std::string_view body) {
  if (body.size() > kLongestRequest) {
    throw failure::InputError(
        fmt::format("the request is longer than {} bytes; nothing was recorded", kLongestRequest));
  }
  auto document = exchange::read_strict_json(body, {}, {});
  if (!document.is_object()) {
    throw failure::InputError("the request is no JSON object; nothing was recorded");
  }
  return document;
}

[[noreturn]] void refuse_member(const std::string& name, std::string_view expected) {
  throw failure::InputError(
      fmt::format("the request's \"{}\" is not {}; nothing was recorded", name, expected));
}

std::string text_in(const std::string& name, const nlohmann::ordered_json& value) {
  if (!value.is_string()) refuse_member(name, "a text");
  auto text = value.get<std::string>();
  if (text.size() > kLongestText) {
    refuse_member(name, fmt::format("at most {} bytes long", kLongestText));
  }
  return text;
}

std::int64_t number_in(const std::string& name, const nlohmann::ordered_json& value,
                       std::int64_t most) {
  if (!value.is_number_integer()) refuse_member(name, "a whole number");
  const bool is_too_large =
      value.is_number_unsigned() && value.get<std::uint64_t>() > static_cast<std::uint64_t>(most);
  if (is_too_large || value.get<std::int64_t>() < 0) {
    refuse_member(name, fmt::format("between 0 and {}", most));
  }
  return value.get<std::int64_t>();
}

constexpr std::array<std::pair<std::string_view, std::string Deed::*>, 17> kTexts = {{
    {"kind", &Deed::kind},
    {"joint", &Deed::joint},
    {"positions", &Deed::positions},
    {"broke", &Deed::broke},
    {"bag", &Deed::bag},
    {"note", &Deed::note},
    {"wrench", &Deed::wrench},
    {"setting", &Deed::setting},
    {"mark", &Deed::mark},
    {"restart", &Deed::restart},
    {"turned", &Deed::turned},
    {"seen", &Deed::seen},
    {"skip", &Deed::skip},
    {"counter", &Deed::counter},
    {"state", &Deed::state},
    {"of", &Deed::of},
    {"where", &Deed::where},
}};
constexpr std::array<std::pair<std::string_view, int Deed::*>, 2> kNumbers = {
    {{"position", &Deed::position}, {"pass", &Deed::pass}}};
constexpr std::array<std::pair<std::string_view, bool Deed::*>, 2> kFlags = {
    {{"marked", &Deed::marked}, {"wiped", &Deed::wiped}}};

template <class Members>
auto member_named(const Members& members, std::string_view name) {
  for (const auto& [known, member] : members) {
    if (known == name) return member;
  }
  return decltype(members.front().second){nullptr};
}

// What is said of these is not as planned: nothing is never meant by it, as on the command line.
constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kNeverEmpty = {{
    {"skip", "why it is left out"},
    {"turned", "by how much it was turned, such as 62°"},
    {"setting", "what the wrench was set to"},
    {"positions", "which positions"},
}};

void check_not_empty(const std::string& name, std::string_view text) {
  for (const auto& [never_empty, expected] : kNeverEmpty) {
    if (name != never_empty || !quantity::trimmed(text).empty()) continue;
    throw failure::InputError(fmt::format("say {}; nothing was recorded", expected));
  }
}

void take_member(Deed& deed, const std::string& name, const nlohmann::ordered_json& value) {
  if (name == "id") {
    deed.id.tail = text_in(name, value);
  } else if (name == "at") {
    deed.at = number_in(name, value, kLatestMoment);
  } else if (const auto text = member_named(kTexts, name)) {
    deed.*text = text_in(name, value);
    check_not_empty(name, deed.*text);
  } else if (const auto number = member_named(kNumbers, name)) {
    deed.*number = static_cast<int>(number_in(name, value, 1'000'000));
  } else if (const auto flag = member_named(kFlags, name)) {
    if (!value.is_boolean()) refuse_member(name, "true or false");
    deed.*flag = value.get<bool>();
  } else {
    throw failure::InputError(
        fmt::format("the request has a \"{}\", which is not known here; load the page anew", name));
  }
}

// `picture_hash` of what is sent beside it.
Deed read_deed_with(std::string_view body, const std::string& picture_hash) {
  const auto document = object_in(body);
  Deed deed;
  for (const auto& [name, value] : document.items()) take_member(deed, name, value);
  if (!logbook::is_id_tail(deed.id.tail)) refuse_member("id", "such as 9abc-0123456789ab");
  if (deed.kind == "tighten" && deed.pass == 0) refuse_member("pass", "that of the step");
  if (!deed.of.empty() && !logbook::is_id_tail(deed.of)) refuse_member("of", "the id of a deed");
  // The same whatever the order of its members.
  deed.id.check = logbook::sha256(nlohmann::json(document).dump() + picture_hash).substr(0, 3);
  return deed;
}

}  // namespace

Deed read_deed(std::string_view body) { return read_deed_with(body, {}); }

Deed read_photograph(std::string_view body) {
  const auto end = body.substr(0, kLongestRequest + 1).find('\n');
  if (end == body.npos || end + 1 == body.size()) {
    throw failure::InputError("the request has no picture; nothing was recorded");
  }
  const auto picture = body.substr(end + 1);
  auto deed = read_deed_with(body.substr(0, end), logbook::sha256(picture));
  if (deed.kind != kPhotograph) refuse_member("kind", "that of a photograph");
  deed.picture = picture;
  return deed;
}

Pairing read_pairing(std::string_view body) {
  const auto document = object_in(body);
  Pairing pairing;
  for (const auto& [name, value] : document.items()) {
    if (name == "code") {
      pairing.code = text_in(name, value);
    } else if (name == "who") {
      pairing.who = text_in(name, value);
    } else {
      refuse_member(name, "known here");
    }
  }
  return pairing;
}

}  // namespace phone
