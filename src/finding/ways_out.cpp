#include "finding/ways_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace finding {
namespace {

using record::BreakLoose;
using record::DamagedThread;
using record::Removal;

// The worse, the later in it: what sheared has to come out of its hole and be replaced.
int gravity_of(BreakLoose broke) {
  constexpr std::array kByGravity = {BreakLoose::Normal, BreakLoose::Tight,
                                     BreakLoose::Seized, BreakLoose::AlreadyLoose,
                                     BreakLoose::Empty,  BreakLoose::Sheared};
  return static_cast<int>(std::ranges::find(kByGravity, broke) - kByGravity.begin());
}

std::optional<DamagedThread> either(std::optional<DamagedThread> one,
                                    std::optional<DamagedThread> other) {
  if (!one || !other || one == other) return one ? one : other;
  return DamagedThread::Both;
}

std::string thread_text(const Removal& out) {
  return out.damaged_thread ? "damaged: " + std::string(record::word_of(*out.damaged_thread))
                            : std::string("no damage told");
}

std::string as_it_came(const std::string& other, const std::string& of_joint) {
  return other.empty() || other == of_joint ? "as the joint has it" : other;
}

bool is_other_length(const record::Joint& joint, const Removal& out) {
  return out.other_length &&
         (!joint.length || !quantity::is_same(*out.other_length, *joint.length));
}

std::string length_text(const record::Joint& joint, const Removal& out) {
  return is_other_length(joint, out) ? record::other_length_text(out) : "as the joint has it";
}

template <class Text>
void compare(std::string_view what, bool is_grave, const Outs& outs, const Text& text,
             std::vector<DisputedOut>& disputed) {
  DisputedOut of_it{what, {}, is_grave};
  for (const auto* out : outs) of_it.said.push_back(text(out->content));
  const auto& first = of_it.said.front();
  if (std::ranges::any_of(of_it.said, [&](const auto& each) { return each != first; })) {
    disputed.push_back(std::move(of_it));
  }
}

}  // namespace

std::vector<DisputedOut> disputed_outs(const record::Joint& joint, const Outs& outs) {
  std::vector<DisputedOut> disputed;
  if (outs.size() < 2) return disputed;
  const auto look = [&](std::string_view what, const auto& text) {
    compare(what, true, outs, text, disputed);
  };
  look("broke loose", [](const Removal& out) { return std::string(record::word_of(out.broke)); });
  look("thread", thread_text);
  look("size", [&](const Removal& out) { return as_it_came(out.other_size, joint.size); });
  look("length", [&](const Removal& out) { return length_text(joint, out); });
  look("grade", [&](const Removal& out) { return as_it_came(out.other_grade, joint.grade); });
  look("teardown mark",
       [](const Removal& out) { return std::string(out.marked ? "drawn" : "not drawn"); });
  // Who names no bag disputes none.
  const auto names_a_bag = [](const auto* out) { return !out->content.bag.empty(); };
  if (std::ranges::all_of(outs, names_a_bag)) {
    compare(
        "bag", false, outs, [](const Removal& out) { return out.bag; }, disputed);
  }
  return disputed;
}

std::string in_words(const DisputedOut& disputed, const Outs& outs) {
  std::string text(disputed.what);
  for (std::size_t i = 0; i < outs.size(); ++i) {
    text += fmt::format("{} {} (line {}, {})", i == 0 ? "" : ",", disputed.said[i],
                        outs[i]->stamp.line, outs[i]->stamp.by);
  }
  return text;
}

Removal by_the_worse(const record::Joint& joint, const Outs& outs) {
  auto worst = outs.front()->content;
  for (const auto* out : outs) {
    const auto before = std::exchange(worst, out->content);
    if (gravity_of(before.broke) > gravity_of(worst.broke)) worst.broke = before.broke;
    worst.damaged_thread = either(before.damaged_thread, worst.damaged_thread);
    worst.marked = worst.marked && before.marked;
    if (!is_other_length(joint, worst) && is_other_length(joint, before)) {
      worst.other_length = before.other_length;
      worst.other_length_typed = before.other_length_typed;
    }
    const auto keep = [](std::string& later, const std::string& earlier, const auto& of_joint) {
      if (later.empty() || later == of_joint) later = earlier;
    };
    keep(worst.other_size, before.other_size, joint.size);
    keep(worst.other_grade, before.other_grade, joint.grade);
    keep(worst.bag, before.bag, std::string_view());
    if (worst.note.empty()) {
      worst.note = before.note;
    } else if (!before.note.empty() && before.note != worst.note) {
      worst.note = before.note + "; " + worst.note;
    }
  }
  return worst;
}

bool are_of_several_copies(const record::Apart& apart, const Outs& outs) {
  return outs.size() > 1 &&
         std::ranges::any_of(outs, [&](const auto* out) { return apart.has(out->stamp.id); });
}

std::shared_ptr<const record::Entry<Removal>> read_together(const record::Joint& joint,
                                                            const Outs& outs) {
  if (disputed_outs(joint, outs).empty()) return nullptr;
  return std::make_shared<const record::Entry<Removal>>(
      record::Entry<Removal>{outs.back()->stamp, by_the_worse(joint, outs)});
}

}  // namespace finding
