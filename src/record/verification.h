#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "record/unreadable_line.h"

namespace record {

// What a look at a whole logbook found: whether anything in it was changed behind the program.

// How the lines fit their hashes (logbook/hash_chain.h).
struct ChainCheck {
  enum class Fault {
    Numbers,       // its number is not the one after that of the line before
    NoHash,        // it has none
    Changed,       // what it says is not what was hashed
    NoContent,     // what its kind needs is not there, or what another kind has is
    LineBefore,    // what was there when it was written is not
    DeviceBefore,  // the same of the line before by its device
    NotAnEnd,      // no later line comes after it, and no merged copy ended with it
    RowsOfNoLine,  // of that table, without a line that they belong to
    HashOfNoLine,
  };
  struct Misfit {
    Fault fault = Fault::Numbers;
    std::int64_t line = 0;    // 0 where it is about no line that is there
    std::int64_t before = 0;  // number of the line before it in the file; 0 for none
    std::string id;
    std::string table;
  };
  struct Hashed {
    std::int64_t line = 0;
    std::string hash;
  };

  std::int64_t lines = 0;
  std::vector<Misfit> misfits;  // the first ten, by the order of the lines
  std::int64_t others = 0;      // how many more there are
  Hashed last;                  // the last line; nothing in an empty file
  // The lines after which none is known to have come, rising: the last one alone, but for merged
  // copies that nothing was written to since.
  std::vector<Hashed> ends;
  std::int64_t later = 0;       // so many lines were written before there were hashes
  std::int64_t last_later = 0;  // the last of them; the same number where they are the first ones
  std::vector<Hashed> sought;   // the lines whose hashes were looked for, as far as they are there
  // The lines of the log that ended with these, by the numbers that they have now, rising: the
  // first so many, but for merged copies.
  std::vector<std::int64_t> lines_of_sought;
};

// A signature that somebody gave, held against the log as it is.
struct SignatureCheck {
  std::int64_t line = 0;  // up to which; 0 where that line is not there
  std::string by;
  std::string at;           // as write_utc writes it
  std::string public_key;   // as 64 hexadecimal digits
  std::string fingerprint;  // its SHA-256, by which people tell it
  bool fits = false;        // the holder of the key signed this line as it is
  // What it was made over: that line and all that came before it where it was written, in the
  // order of the lines by the numbers that they have now, each run of them from its first to its
  // last. In a logbook of merged copies that is not all up to that line.
  struct Run {
    std::int64_t first = 0;
    std::int64_t last = 0;
    bool operator==(const Run&) const = default;
  };
  std::vector<Run> over = {};
};

// A photograph that is not what a line says of it.
struct PhotographMisfit {
  enum class Fault {
    Missing,         // its bytes are not there
    Changed,         // they are not what was kept
    AnotherPicture,  // they are, but no picture such as the line says
    OfNoLine,        // bytes of which no line says anything
  };
  Fault fault = Fault::Missing;
  std::int64_t line = 0;  // 0 where no line names it
  std::string sha256;
};

// A table, index, view or trigger that is not as this version of the schema has it.
struct SchemaMisfit {
  enum class How { Missing, Altered, Added };
  How how = How::Missing;
  std::string type;  // "trigger"
  std::string name;
};

// It fits where the lists of what does not are empty, the chain has no misfit, every signature fits
// and every line that counts can be read.
struct Verification {
  int schema = 0;
  std::vector<SchemaMisfit> objects;
  std::vector<std::string> kinds;    // words of the table of kinds that are not the program's
  std::vector<std::string> unsound;  // what SQLite says of its pages and rows, the first ten
  std::vector<std::string> orphans;  // tables with rows that point nowhere
  // Nothing where the lines have no hashes yet (an earlier schema), or could not be read for what
  // the lists above say.
  std::optional<ChainCheck> chain;
  std::vector<SignatureCheck> signatures;  // by rising line
  std::vector<PhotographMisfit> photographs = {};
  std::int64_t photographs_kept = 0;
  // The lines that every other reader refuses, be their hashes right or not, without those that are
  // struck; by rising line. Empty where the lines were not read.
  std::vector<UnreadableLine> unreadable = {};

  [[nodiscard]] bool fits() const {
    return is_only_unreadable() && chain.has_value() && unreadable.empty();
  }

  // Whether nothing else is wrong than lines that cannot be read, be there any or not.
  [[nodiscard]] bool is_only_unreadable() const {
    return is_as_written() && std::ranges::all_of(signatures, &SignatureCheck::fits);
  }

  // Whether the logbook is usable again once every line that cannot be read is struck.
  [[nodiscard]] Strikes what_strikes_do() const {
    return is_only_unreadable() && std::ranges::all_of(unreadable, can_be_struck)
               ? Strikes::Mend
               : Strikes::AreNotEnough;
  }

  // Whether nothing was changed, whoever signed it, whether its lines have hashes yet or not, and
  // whether they can be read: an earlier program may have written what no reader takes.
  [[nodiscard]] bool is_as_written() const {
    return objects.empty() && kinds.empty() && unsound.empty() && orphans.empty() &&
           photographs.empty() && (!chain || chain->misfits.empty());
  }
};

}  // namespace record
