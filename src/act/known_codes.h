#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace act {

// The codes of all joints that are known, each once, against which another is held; that takes as
// long for ten as for ten thousand of them.
class KnownCodes {
 public:
  KnownCodes() = default;
  explicit KnownCodes(const std::vector<std::string>& codes);

  // One that is not among them, in any case of letters.
  void add(const std::string& code);

  // As written, in the order in which they became known.
  [[nodiscard]] const std::vector<std::string>& all() const { return codes_; }

  // In any case of letters.
  [[nodiscard]] bool contains(std::string_view code) const;

  // "J02" where this code differs from one of them in noughts before a number alone, the first of
  // them; empty where there is none. The two would be taken for one on paper and at the machine.
  [[nodiscard]] std::string differs_in_noughts(std::string_view code) const;

 private:
  [[nodiscard]] const std::vector<std::size_t>& alike(std::string_view code) const;

  std::vector<std::string> codes_;
  // Their places by record::without_noughts.
  std::unordered_map<std::string, std::vector<std::size_t>> by_number_;
};

}  // namespace act
