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
// "bag 7", "note rust on the seat".
struct BagOrNote {
  bool is_bag = true;
  std::string text;
};
using BenchAnswer = std::variant<Key, ChosenSetting, OwnPull, NamedWrench, Elsewhere, BagOrNote,
                                 record::ShoutedLine>;

// The letters with which a word of its own begins, which is a line then: "bag", "note".
inline constexpr std::string_view kBeginWords = "bn";

// What is asked for, as far as an unknown name is taken for it.
enum class AskedFor { Joint, Wrench };

// Reads one. A single letter is a key where it is one of `keys` and no blank stands before it; a
// name that nobody knows is a joint's, or a wrench's where one is asked for. InputError where it is
// none of these.
[[nodiscard]] BenchAnswer read_bench_answer(std::string_view typed, std::string_view keys,
                                            const record::KnownNames& known,
                                            AskedFor asked = AskedFor::Joint);

}  // namespace dialogue
