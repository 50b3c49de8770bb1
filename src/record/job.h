#pragma once

#include <string_view>
#include <vector>

#include "record/apart.h"
#include "record/content.h"
#include "record/entry.h"

namespace record {

// Everything in a logbook that counts: the entries of each kind that have not been struck, in the
// order of their ids (that is, of time). All computing starts from here and needs no store. Its
// members, such as job.findings, are named beside the struct of each kind (InJob).
template <class List>
struct JobOf;
template <class... Each>
struct JobOf<ListOfKinds<Each...>> : InJob<typename Each::Content>... {};
struct Job : JobOf<Kinds> {
  Apart apart = {};  // which of its lines were written in copies that were apart
};

// A kind of which a job holds the entries: all but the first line and the strikes.
template <class Kind>
concept KeptInJob = !OneOf<Kind, LogbookStart, Strike>;

// The entries of one kind.
template <KeptInJob Kind>
[[nodiscard]] std::vector<Entry<Kind>>& entries_of(Job& job) {
  auto& [entries] = static_cast<InJob<Kind>&>(job);
  return entries;
}
template <KeptInJob Kind>
[[nodiscard]] const std::vector<Entry<Kind>>& entries_of(const Job& job) {
  const auto& [entries] = static_cast<const InJob<Kind>&>(job);
  return entries;
}

// Calls `work` with every entry of the job, kind by kind, in the order of the list of kinds.
template <class Work>
void for_each_entry(const Job& job, const Work& work) {
  Kinds::for_each([&]<class Kind>() {
    if constexpr (KeptInJob<Kind>) {
      for (const auto& entry : entries_of<Kind>(job)) work(entry);
    }
  });
}

// The joint with this code in any case of letters; the latest where it was entered again.
[[nodiscard]] const Joint* joint_in(const Job& job, std::string_view code);

// The wrench as it is now: its latest entry.
[[nodiscard]] const Wrench* wrench_in(const Job& job, std::string_view name);

// The wrench as it was on a day: the entry whose calibration was the last before or on it, else
// the latest entry.
[[nodiscard]] const Wrench* wrench_on(const Job& job, std::string_view name, Day day);

// Names of the wrenches, each once, in the order of their first entry.
[[nodiscard]] std::vector<std::string_view> wrench_names(const Job& job);

}  // namespace record
