#pragma once

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {

// One word of a closed vocabulary and the value it stands for.
template <class Value>
struct Word {
  Value value;
  std::string_view text;
};

template <class Value>
Word(Value, std::string_view) -> Word<Value>;

// The vocabulary of a type: each enum of this room specialises `kWords`, so that the words are
// written down once and the reader, the writer and the messages use the same list.
// ON DISK: the columns of a logbook hold these words, so that none ever changes or goes
// (tests/logbook/stored_words_test.cpp lists them all).
template <class Value>
struct Vocabulary;

template <class Value>
[[nodiscard]] std::string_view word_of(Value value) {
  for (const auto& word : Vocabulary<Value>::kWords) {
    if (word.value == value) return word.text;
  }
  return {};
}

// The same word but for the case of its letters, hyphens and blanks: "Normal", "retorque".
[[nodiscard]] bool is_same_word(std::string_view a, std::string_view b);

// The value whose word this is (is_same_word). InputError naming the accepted words.
template <class Value>
[[nodiscard]] Value read_word(std::string_view text) {
  std::string accepted;
  for (const auto& word : Vocabulary<Value>::kWords) {
    if (is_same_word(word.text, text)) return word.value;
    accepted += accepted.empty() ? "" : ", ";
    accepted += word.text;
  }
  throw failure::InputError(fmt::format("{} is not one of {}", quantity::quoted(text), accepted));
}

}  // namespace record
