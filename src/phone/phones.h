#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "record/moment.h"

namespace phone {

// A phone that was paired with a logbook: who uses it, and since when.
struct PairedPhone {
  std::string who;
  std::string paired_at;   // as record::write_utc
  std::string logbook;     // the id of its first line
  std::string token_hash;  // SHA-256; the token itself is kept by the phone alone
};

// The phones of a person's logbooks, in a file of this folder that nobody else can read. It is read
// anew each time, so that a phone which was forgotten by another command is out at once. OutputLost
// where it can be neither read nor written.
class Phones {
 public:
  explicit Phones(std::filesystem::path folder);

  // Takes a phone in and gives it its token: 64 hexadecimal digits, random.
  [[nodiscard]] std::string admit(const std::string& who, const std::string& logbook,
                                  record::Moment now) const;

  // Who has this token; nothing where nobody has, or for another logbook.
  [[nodiscard]] std::optional<std::string> owner_of(const std::string& token,
                                                    const std::string& logbook) const;

  // Those of one logbook, in the order in which they were paired.
  [[nodiscard]] std::vector<PairedPhone> of(const std::string& logbook) const;

  // Forgets all phones of one person for this logbook; how many they were.
  std::size_t forget(const std::string& who, const std::string& logbook) const;

 private:
  [[nodiscard]] std::vector<PairedPhone> all() const;
  void keep(const std::vector<PairedPhone>& phones) const;

  std::filesystem::path file_;
};

}  // namespace phone
