#pragma once

#include <memory>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "record/content.h"
#include "record/entry.h"

namespace record {

// Which lines were written while copies of the logbook were apart: in one of them, by somebody who
// had not seen what was written in the other. Nothing where no copies were ever merged.
class Apart {
 public:
  // Where such a line stands. The lines of one stretch of time in which copies were apart are
  // parted into chains: rows of lines each of which came right after the one before it.
  struct Place {
    int stretch = 0;
    int chain = 0;
    int place = 0;  // in its chain, from 0
    // By chain, how many of its lines had been seen; of a chain beyond its end, none. Its own chain
    // is not told by it.
    std::shared_ptr<const std::vector<int>> seen;
  };

  // A line that was struck in such a stretch.
  struct Struck {
    Stamp by;     // the strike
    Stamp stamp;  // the line that it struck
    Content content;
  };

  // Of a line that was struck and counts all the same (kept_by_use.h) who struck it, and who went
  // on from it without knowing that; each in the order of the lines.
  struct Kept {
    std::vector<Stamp> struck_by;
    std::vector<Stamp> used_in;
  };

  void add(const std::string& id, Place place) { places_.emplace(id, std::move(place)); }
  void add(Struck struck) { struck_.push_back(std::move(struck)); }

  void keep(const std::string& id, Kept kept) { kept_.insert_or_assign(id, std::move(kept)); }

  [[nodiscard]] bool is_empty() const { return places_.empty(); }
  [[nodiscard]] bool has(const std::string& id) const { return places_.contains(id); }

  // Whoever wrote the one had not seen the other, and the other way round.
  [[nodiscard]] bool are_apart(const Stamp& a, const Stamp& b) const;

  // In the order of the strikes' ids.
  [[nodiscard]] const std::vector<Struck>& struck() const { return struck_; }

  // Nothing for a line that counts because nobody struck it.
  [[nodiscard]] const Kept* kept(const std::string& id) const {
    const auto found = kept_.find(id);
    return found == kept_.end() ? nullptr : &found->second;
  }

 private:
  std::unordered_map<std::string, Place> places_;  // by id
  std::vector<Struck> struck_;
  std::unordered_map<std::string, Kept> kept_;  // by id
};

}  // namespace record
