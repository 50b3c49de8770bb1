#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "record/measured.h"
#include "record/shouted_line.h"
#include "record/typed_text.h"

namespace dialogue {

// What somebody at the bench may answer to any prompt.
struct Key {
  char key = '\n';  // in lower case; '\n' for Enter alone
};
struct ChosenSetting {
  record::TypedSetting setting;
};
struct OwnPull {
  record::SettingReading reading;
  std::string typed;
};
struct NamedWrench {
  std::string name;
};
struct Elsewhere {
  record::Address address;
};
using BenchAnswer =
    std::variant<Key, ChosenSetting, OwnPull, NamedWrench, Elsewhere, record::ShoutedLine>;

// Reads one. A single letter is a key where it is one of `keys` and no blank stands before it.
// InputError where it is none of these.
[[nodiscard]] BenchAnswer read_bench_answer(std::string_view typed, std::string_view keys,
                                            const record::KnownNames& known);

}  // namespace dialogue
