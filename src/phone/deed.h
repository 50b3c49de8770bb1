#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "logbook/entry_id.h"

namespace phone {

// The longest request that is read, in bytes; a deed takes some hundreds.
inline constexpr std::size_t kLongestRequest = 16'384;

// The kind of a deed with a photograph.
inline constexpr std::string_view kPhotograph = "photograph";

// A deed as a page sends it: its id, when it was done by the clock of the page, what was done, and
// the words of it as they were typed or tapped. What is not said is empty.
struct Deed {
  logbook::GivenId id;
  std::int64_t at = 0;  // milliseconds since 1970
  std::string kind;
  std::string joint;
  int position = 0;
  std::string positions;
  std::string broke;
  bool marked = true;
  std::string bag;
  std::string note;
  std::string wrench;
  std::string setting;
  std::string mark;
  std::string restart;
  int pass = 0;
  std::string turned;
  std::string seen;
  std::string skip;
  bool wiped = false;
  std::string counter;
  std::string state;
  std::string of;     // the tail of the id of another deed
  std::string where;  // what a photograph shows, as act::PhotographWords has it
  std::optional<std::string_view> picture = std::nullopt;  // its bytes, in what was read

  bool operator==(const Deed&) const = default;
};

// Reads one, a JSON object. InputError where it is none, where a member is not known here, of
// another type or too long, and where the id is no tail of one.
[[nodiscard]] Deed read_deed(std::string_view body);

// Reads one with a photograph: the object as above on a line of its own, then the bytes of the
// picture, into which the deed points. InputError as above, and where there are no such bytes.
[[nodiscard]] Deed read_photograph(std::string_view body);

// The members of a flat JSON object of texts, such as a code and a name. InputError where it is
// anything else.
struct Pairing {
  std::string code;
  std::string who;
};
[[nodiscard]] Pairing read_pairing(std::string_view body);

}  // namespace phone
