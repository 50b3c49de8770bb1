#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <variant>

namespace record {

// A word known when compiling, to be named where a type is.
template <std::size_t size>
struct KnownWord {
  char text[size] = {};

  // NOLINTNEXTLINE(google-explicit-constructor): a literal is meant to become one
  consteval KnownWord(const char (&literal)[size]) { std::copy_n(literal, size, text); }
  [[nodiscard]] constexpr std::string_view view() const { return {text, size - 1}; }
};

// A kind of line and the word for it in the logbook's table of kinds. ON DISK: none ever changes.
template <class Kind, KnownWord word>
struct KindOfLine {
  using Content = Kind;
  static constexpr std::string_view kWord = word.view();
};

// Kinds of lines, each with what is folded over all of them.
template <class... Each>
struct ListOfKinds {
  using Content = std::variant<typename Each::Content...>;
  static constexpr std::size_t kCount = sizeof...(Each);

  // Calls `work.template operator()<Kind>()` for each, in the order of the list.
  template <class Work>
  static constexpr void for_each(Work&& work) {
    (work.template operator()<typename Each::Content>(), ...);
  }

  // The word of one of them; what is not in the list does not compile.
  template <class Kind>
  requires(std::is_same_v<Kind, typename Each::Content> || ...) static consteval std::string_view
      word_of() {
    std::string_view word;
    ((std::is_same_v<Kind, typename Each::Content> ? void(word = Each::kWord) : void()), ...);
    return word;
  }

  // Its place in the list, from 0; what is not in the list does not compile.
  template <class Kind>
  requires(std::is_same_v<Kind, typename Each::Content> || ...) static consteval std::size_t
      index_of() {
    std::size_t index = 0;
    std::size_t at = 0;
    ((std::is_same_v<Kind, typename Each::Content> ? void(index = at++) : void(++at)), ...);
    return index;
  }
};

// One of these types.
template <class Kind, class... Others>
concept OneOf = (std::is_same_v<Kind, Others> || ...);

}  // namespace record
