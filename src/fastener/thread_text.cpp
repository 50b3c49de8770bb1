#include "fastener/thread_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "failure/failure.h"
#include "fastener/standard_threads.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using failure::InputError;
using quantity::is_digit;
using quantity::trimmed;
using quantity::write_exact;

constexpr std::size_t kLongestText = 60;

[[noreturn]] void refuse(std::string_view typed, const std::string& why) {
  throw InputError(fmt::format("{}: {}", quantity::quoted(typed), why));
}

// Small letters, and one way to write the signs that have several.
std::string plain(std::string_view typed) {
  struct Sign {
    std::string_view from;
    char to;
  };
  constexpr std::array kSigns = {Sign{"×", 'x'}, Sign{"*", 'x'}, Sign{"‐", '-'},
                                 Sign{"‑", '-'}, Sign{"–", '-'}, Sign{"−", '-'},
                                 Sign{"″", '"'}, Sign{"”", '"'}, Sign{"\u00A0", ' '}};
  std::string result;
  for (std::string_view rest = typed; !rest.empty();) {
    bool replaced = false;
    for (const auto& [from, to] : kSigns) {
      if (!rest.starts_with(from)) continue;
      result += to;
      rest.remove_prefix(from.size());
      replaced = true;
      break;
    }
    if (replaced) continue;
    const char c = rest.front();
    result += quantity::lower(c);
    rest.remove_prefix(1);
  }
  return result;
}

bool take(std::string_view& text, std::string_view front) {
  if (!text.starts_with(front)) return false;
  text.remove_prefix(front.size());
  return true;
}

bool take_from_end(std::string_view& text, std::string_view end) {
  if (!text.ends_with(end)) return false;
  text = trimmed(text.substr(0, text.size() - end.size()));
  return true;
}

Hand take_hand(std::string_view& text) {
  if (!take_from_end(text, "lh")) return Hand::Right;
  take_from_end(text, "-");
  return Hand::Left;
}

// "-6g", "-4g6g", "-2a": how tightly the thread is made. It changes none of its nominal measures.
void skip_tolerance_class(std::string_view& text) {
  const auto dash = text.rfind('-');
  if (dash == std::string_view::npos) return;
  const auto word = trimmed(text.substr(dash + 1));
  const auto is_grade = [&](std::size_t at) {
    return is_digit(word[at]) && word[at + 1] >= 'a' && word[at + 1] <= 'h';
  };
  const bool is_class =
      (word.size() == 2 && is_grade(0)) || (word.size() == 4 && is_grade(0) && is_grade(2));
  if (is_class) text = trimmed(text.substr(0, dash));
}

Thread read_metric(std::string_view text, std::string_view typed, Hand hand) {
  const auto diameter = quantity::read_leading_number(text, typed);
  if (diameter.rest.empty()) {
    const auto* size = find_metric_size(diameter.value);
    if (size != nullptr && size->coarse_mm > 0.0) {
      return Thread::metric(diameter.value, size->coarse_mm, hand);
    }
    const double likely_mm =
        size != nullptr ? size->fine_mm.front() : std::min(1.0, diameter.value / 8.0);
    refuse(typed,
           fmt::format("ISO 261 gives no coarse pitch for {} mm; write the pitch, such as {}",
                       write_exact(diameter.value),
                       write_exact(Thread::metric(diameter.value, likely_mm, hand))));
  }
  auto rest = diameter.rest;
  if (!take(rest, "x") && !take(rest, "-")) {
    refuse(typed, "expected the pitch behind an x, such as M10x1.25");
  }
  const auto pitch = quantity::read_leading_number(rest, typed);
  if (!pitch.rest.empty()) {
    refuse(typed, fmt::format("{} follows the pitch; write the thread alone, such as M10x1.25",
                              quantity::quoted(pitch.rest)));
  }
  return Thread::metric(diameter.value, pitch.value, hand);
}

std::string_view take_digits(std::string_view& text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end])) ++end;
  const auto digits = text.substr(0, end);
  text.remove_prefix(end);
  return digits;
}

// A fraction "3/8" at the front of `text`, and nothing taken where there is none.
std::string take_fraction(std::string_view& text) {
  std::string_view rest = text;
  const auto top = take_digits(rest);
  if (top.empty() || !take(rest, "/")) return {};
  const auto bottom = take_digits(rest);
  if (bottom.empty()) return {};
  text = rest;
  return fmt::format("{}/{}", top, bottom);
}

// Fewer threads per inch than any number size has whose number is a size in inches too (#4-40).
constexpr double kFewestOnSmallNumbers = 40.0;

// What a size was written as: the name to look up, and whether a bare number leaves it open which
// kind it is.
struct WrittenSize {
  std::string name;
  bool may_be_number_size = false;
};

WrittenSize take_unified_size(std::string_view& text, std::string_view typed) {
  if (take(text, "#") || take(text, "no.") || take(text, "no")) {
    text = trimmed(text);
    return {fmt::format("#{}", take_digits(text)), false};
  }
  if (auto fraction = take_fraction(text); !fraction.empty()) return {fraction, false};
  if (std::string_view behind = text; take_digits(behind), behind.starts_with('.')) {
    const auto decimal = quantity::read_leading_number(text.substr(0, text.find('-')), typed);
    const auto* size = find_unified_size(decimal.value);
    text.remove_prefix(static_cast<std::size_t>(decimal.digits.data() - text.data()) +
                       decimal.digits.size());
    return {size != nullptr ? std::string(size->name) : std::string(decimal.digits), false};
  }
  const auto whole = take_digits(text);
  if (std::string_view behind = text; take(behind, "-") || take(behind, " ")) {
    behind = trimmed(behind);
    if (auto fraction = take_fraction(behind); !fraction.empty()) {
      text = behind;
      return {fmt::format("{}-{}", whole, fraction), false};
    }
  }
  return {std::string(whole), true};
}

// Which series a word claims.
enum class Claim { Nothing, Coarse, Fine, Eight, Listed };

std::optional<Claim> read_claim(std::string_view word) {
  if (word.empty()) return Claim::Nothing;
  if (word == "unc" || word == "unrc" || word == "nc") return Claim::Coarse;
  if (word == "unf" || word == "unrf" || word == "nf") return Claim::Fine;
  if (word == "8un" || word == "8unr" || word == "8n") return Claim::Eight;
  if (word == "un" || word == "unr" || word == "uns" || word == "unef") return Claim::Listed;
  return std::nullopt;
}

bool agrees(Claim claim, ThreadSeries series) {
  switch (claim) {
    case Claim::Coarse:
      return series == ThreadSeries::Unc;
    case Claim::Fine:
      return series == ThreadSeries::Unf;
    case Claim::Eight:
      return series == ThreadSeries::EightUn;
    case Claim::Nothing:
    case Claim::Listed:
      break;
  }
  return true;
}

double listed_threads(const UnifiedSize& size, Claim claim) {
  switch (claim) {
    case Claim::Coarse:
      return size.unc_per_inch;
    case Claim::Fine:
      return size.unf_per_inch;
    case Claim::Eight:
      return size.eight_un ? 8.0 : 0.0;
    case Claim::Nothing:
    case Claim::Listed:
      break;
  }
  return 0.0;
}

const UnifiedSize& known_size(const WrittenSize& written, double threads_per_inch,
                              std::string_view typed) {
  const UnifiedSize* size = find_unified_size(written.name);
  if (written.may_be_number_size &&
      (size == nullptr || threads_per_inch >= kFewestOnSmallNumbers)) {
    if (const auto* numbered = find_unified_size("#" + written.name)) size = numbered;
  }
  if (size == nullptr) {
    refuse(typed, fmt::format("{} is no unified thread size; expected #0 to #12 or 1/4 to 4, such "
                              "as #10-24 or 3/8-16, or a metric thread such as M10",
                              quantity::quoted(written.name)));
  }
  return *size;
}

Thread read_unified(std::string_view text, std::string_view typed, Hand hand) {
  auto written = take_unified_size(text, typed);
  text = trimmed(text);
  if (take(text, "\"") || take(text, "in")) written.may_be_number_size = false;
  text = trimmed(text);
  take(text, "-");
  text = trimmed(text);

  // "3/8 UNC": the series stands for the number of threads. "8UN" begins with a digit too.
  if (const auto claim = read_claim(text); claim && *claim != Claim::Nothing) {
    const auto& size = known_size(written, 0.0, typed);
    const double threads = listed_threads(size, *claim);
    if (threads == 0.0) {
      refuse(typed, fmt::format("no such thread is listed for {}; write the threads per inch, such "
                                "as {}-12",
                                size.name, size.name));
    }
    return Thread::unified(size.diameter_in, threads, hand);
  }
  if (text.empty()) {
    const auto& size = known_size(written, 0.0, typed);
    refuse(typed,
           fmt::format("expected the threads per inch behind the size, such as {}-{}", size.name,
                       write_exact(size.unc_per_inch > 0.0 ? size.unc_per_inch : 12.0)));
  }
  const auto threads = quantity::read_leading_number(text, typed);
  const auto claim = read_claim(threads.rest);
  if (!claim) {
    refuse(typed, fmt::format("{} follows the threads per inch; expected nothing, UNC, UNF, 8UN or "
                              "UNS there, and no length",
                              quantity::quoted(threads.rest)));
  }
  const auto& size = known_size(written, threads.value, typed);
  auto thread = Thread::unified(size.diameter_in, threads.value, hand);
  if (!agrees(*claim, thread.series())) {
    refuse(typed, fmt::format("{} threads per inch on {} is {}; check which of the two is right",
                              write_exact(threads.value), size.name, name_of(thread.series())));
  }
  return thread;
}

}  // namespace

Thread read_thread(std::string_view text) {
  if (text.size() > kLongestText) {
    refuse(text, "too long for a thread; expected one such as M10x1.25 or 3/8-16");
  }
  const std::string small = plain(text);
  std::string_view rest = trimmed(small);
  const Hand hand = take_hand(rest);
  skip_tolerance_class(rest);
  if (take(rest, "m")) return read_metric(rest, text, hand);
  if (!rest.empty() && (is_digit(rest.front()) || rest.front() == '#' || rest.front() == '.' ||
                        rest.starts_with("no"))) {
    return read_unified(rest, text, hand);
  }
  refuse(text,
         "expected a metric thread from M1.6 to M64 such as M10 or M10x1.25, or a unified "
         "one from #0 to 4 in such as #10-24 or 3/8-16");
}

std::string write_exact(const Thread& thread) {
  std::string text;
  if (thread.is_metric()) {
    text = fmt::format("M{}x{}", write_exact(thread.diameter().in_millimetres()),
                       write_exact(thread.pitch().in_millimetres()));
  } else {
    const auto* size = find_unified_size(thread.diameter().in_inches());
    const double threads = *thread.threads_per_inch();
    const bool like_number_size = threads >= kFewestOnSmallNumbers && size->name.size() == 1;
    text = fmt::format("{}{}-{}", size->name, like_number_size ? "\"" : "", write_exact(threads));
    if (thread.series() == ThreadSeries::Unc) text += " UNC";
    if (thread.series() == ThreadSeries::Unf) text += " UNF";
    if (thread.series() == ThreadSeries::EightUn) text += " UN";
  }
  if (thread.hand() == Hand::Left) text += "-LH";
  return text;
}

std::string_view name_of(ThreadSeries series) {
  switch (series) {
    case ThreadSeries::MetricCoarse:
      return "metric coarse";
    case ThreadSeries::MetricFine:
      return "metric fine";
    case ThreadSeries::MetricOther:
      return "metric, non-standard pitch";
    case ThreadSeries::Unc:
      return "UNC";
    case ThreadSeries::Unf:
      return "UNF";
    case ThreadSeries::EightUn:
      return "8UN";
    case ThreadSeries::UnifiedOther:
      break;
  }
  return "unified, no listed series";
}

}  // namespace fastener
