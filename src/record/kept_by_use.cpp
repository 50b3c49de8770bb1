#include "record/kept_by_use.h"

#include <algorithm>
#include <map>
#include <string>
#include <type_traits>
#include <utility>

#include "record/address.h"
#include "record/concerns.h"

namespace record {
namespace {

// The struck lines of one code: the last of them, and what struck any.
template <class Kind>
struct StruckCode {
  Entry<Kind> last;
  std::vector<Stamp> struck_by;
};

template <class Kind>
std::map<std::string, StruckCode<Kind>> struck_codes(const Job& job) {
  std::map<std::string, StruckCode<Kind>> codes;
  for (const auto& struck : job.apart.struck()) {
    const auto* content = std::get_if<Kind>(&struck.content);
    if (content == nullptr) continue;
    const auto [found, is_first] = codes.try_emplace(
        folded_code(content->code), StruckCode<Kind>{{struck.stamp, *content}, {}});
    if (!is_first && found->second.last.stamp.id < struck.stamp.id) {
      found->second.last = {struck.stamp, *content};
    }
    found->second.struck_by.push_back(struck.by);
  }
  const auto counts = [&](const std::string& code) {
    return std::ranges::any_of(entries_of<Kind>(job), [&](const auto& entry) {
      return folded_code(entry.content.code) == code;
    });
  };
  std::erase_if(codes, [&](const auto& each) { return counts(each.first); });
  return codes;
}

// Whether a line of the second kind is about a joint, hold point or item of the first.
template <class Kind, class Line>
constexpr bool kIsAbout = (std::is_same_v<Kind, Joint> && AboutFasteners<Line>) ||
                          (std::is_same_v<Kind, HoldPoint> &&
                           std::is_same_v<Line, HoldPointStep>) ||
                          (std::is_same_v<Kind, CountedItem> && std::is_same_v<Line, ItemReturn>);

template <class Line>
const std::string& code_named(const Line& line) {
  if constexpr (requires { line.joint; }) {
    return line.joint;
  } else {
    return line.code;
  }
}

template <class Kind>
void keep_kind(Job& job) {
  for (auto& [code, struck] : struck_codes<Kind>(job)) {
    Apart::Kept kept{std::move(struck.struck_by), {}};
    for_each_entry(job, [&, &key = code]<class Line>(const Entry<Line>& entry) {
      if constexpr (kIsAbout<Kind, Line>) {
        const bool is_used = folded_code(code_named(entry.content)) == key &&
                             std::ranges::all_of(kept.struck_by, [&](const Stamp& strike) {
                               return job.apart.are_apart(strike, entry.stamp);
                             });
        if (is_used) kept.used_in.push_back(entry.stamp);
      }
    });
    if (kept.used_in.empty()) continue;
    std::ranges::sort(kept.used_in, {}, &Stamp::id);
    job.apart.keep(struck.last.stamp.id, std::move(kept));
    auto& entries = entries_of<Kind>(job);
    const auto place = std::ranges::find_if(entries, [&, &last = struck.last](const auto& entry) {
      return last.stamp.id < entry.stamp.id;
    });
    entries.insert(place, std::move(struck.last));
  }
}

}  // namespace

void keep_what_is_used(Job& job) {
  if (job.apart.struck().empty()) return;
  keep_kind<Joint>(job);
  keep_kind<HoldPoint>(job);
  keep_kind<CountedItem>(job);
}

}  // namespace record
