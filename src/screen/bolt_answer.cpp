#include "screen/bolt_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "fastener/bearing.h"
#include "fastener/preload_band.h"
#include "fastener/thread_geometry.h"
#include "fastener/thread_text.h"
#include "quantity/number_text.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/joint_heading.h"

namespace screen {
namespace {

using fastener::FactorBand;
using fastener::TorqueRange;
using nlohmann::ordered_json;
using quantity::Force;
using quantity::Length;
using quantity::write_rounded;

std::string with_origin(const fastener::Origin& origin) {
  return fmt::format("{}{}", origin.source,
                     origin.how_known == fastener::HowKnown::FromMemory ? " (from memory)" : "");
}

bool same_in_thread_and_head(const fastener::FrictionBand& friction) {
  return friction.low.thread() == friction.low.head() &&
         friction.high.thread() == friction.high.head();
}

// The friction that was taken and why.
std::string friction_assumption(const BoltPage& bolt, const fastener::FrictionBand& friction) {
  const auto thread = quantity::write_span(friction.low.thread(), friction.high.thread());
  const auto head = quantity::write_span(friction.low.head(), friction.high.head());
  const auto& [of_thread, of_head] = bolt.friction_given;
  const auto metal = fastener::metal_of(bolt.question.grade);
  const auto condition = [&] {
    return fmt::format("{}, {} on {}: {}", fastener::name_of(bolt.question.condition),
                       fastener::name_of(metal), fastener::name_of(metal),
                       with_origin(fastener::friction_span(bolt.question.condition, metal).origin));
  };
  if (of_thread && of_head) {
    return same_in_thread_and_head(friction)
               ? fmt::format("friction {} in thread and under the head, as given", thread)
               : fmt::format("friction {} in the thread and {} under the head, as given", thread,
                             head);
  }
  if (of_thread) {
    return fmt::format("friction {} in the thread, as given; {} under the head for {}", thread,
                       head, condition());
  }
  if (of_head) {
    return fmt::format("friction {} under the head, as given; {} in the thread for {}", head,
                       thread, condition());
  }
  return fmt::format("{}: friction {} in thread and under the head, {} on {}: {}",
                     fastener::name_of(bolt.question.condition), thread, fastener::name_of(metal),
                     fastener::name_of(metal), with_origin(friction.origin));
}

std::string bearing_assumption(const BoltPage& bolt) {
  const auto millimetres = write_rounded(bolt.assessment.bearing.in_millimetres());
  if (bolt.question.bearing) {
    return fmt::format("the turned face rubs at {} mm diameter, as given", millimetres);
  }
  return fmt::format(
      "a plain hexagon head or nut without washer is turned: it rubs at {} mm diameter ({}); "
      "flanged and socket heads differ",
      millimetres, with_origin(fastener::usual_bearing_origin(bolt.question.thread)));
}

// Nothing without a torque, and nothing for stainless, of which no list is known.
std::optional<fastener::ListedPreload> listed_preload(const BoltPage& bolt) {
  const auto& question = bolt.question;
  if (!bolt.assessment.tightened ||
      fastener::metal_of(question.grade) != fastener::BoltMetal::Steel) {
    return std::nullopt;
  }
  const auto running = question.prevailing.value_or(quantity::Torque::newton_metres(0.0));
  return fastener::listed_preload(question.thread, question.condition, *question.torque - running);
}

std::string listed_text(const BoltPage& bolt, const fastener::ListedPreload& listed) {
  const auto kilonewtons = [](const fastener::PreloadBand& band) {
    return fmt::format("{} to {} kN", write_rounded(band.low.in_newtons() / 1000.0, 3),
                       write_rounded(band.high.in_newtons() / 1000.0, 3));
  };
  const auto& factor = listed.nut_factor;
  return fmt::format(
      "to hold against it, lists of nut factors: {} K {:.2f} to {:.2f}, which is {} ({}); by K "
      "{:.2f} one bolt comes to {}, scattered and 5 % relaxed (NASA TM-106943)",
      fastener::name_of(bolt.question.condition), factor.low, factor.high,
      kilonewtons(listed.preload), with_origin(factor.origin), factor.typical,
      kilonewtons(listed.one_bolt));
}

// Everything the figures rest on, each with where it is from.
std::vector<std::string> assumptions_of(const BoltPage& bolt) {
  const auto& [question, assessment, torque, given, checks] = bolt;
  std::vector<std::string> all;
  all.push_back(question.thread.is_metric()
                    ? "stress area from (d2 + d3)/2 of the basic profile: ISO 898-1:2013, 9.1.6.1"
                    : "stress area from d - 0.9743 P of the basic profile: ASME B1.1, Shigley 9th "
                      "ed. Table 8-2");
  all.push_back(fmt::format("least strength of {}: {}", fastener::name_of(question.grade),
                            assessment.strength.source));
  if (const auto mismatch = fastener::marking_mismatch(question.grade, question.thread)) {
    all.push_back("strength as named, although " + *mismatch);
  }
  if (!assessment.strength.proof) {
    all.emplace_back(
        "the standard gives no proof stress; 0.85 of yield stands in (Shigley 9th ed., section "
        "8-9, from memory)");
  }
  all.push_back(bearing_assumption(bolt));
  if (!assessment.advice) {
    all.push_back(fmt::format(
        "no friction is known for {}: it hangs on the product, so no torque is worked out; take "
        "--friction from its maker",
        fastener::name_of(question.condition)));
    return all;
  }
  const auto& friction = assessment.advice->friction;
  all.push_back(friction_assumption(bolt, friction));
  all.emplace_back(
      "T = F [P/(2 pi) + thread friction x d2/(2 cos 30) + head friction x Dkm/2], minus the first "
      "part to loosen: VDI 2230 Part 1, ISO 16047 (from memory)");
  all.emplace_back(
      "yield under pull and twist together by von Mises, the twist over the plastic section "
      "modulus pi d0^3/12, as in a bolt that yields all through: VDI 2230 Part 1 (from memory; it "
      "gives 168 published guideline preloads). The elastic pi d0^3/16 would show more");
  all.emplace_back(
      "plausible is from 55 % of proof at the low friction to 90 % of yield at the high one, which "
      "holds six published tables; a gasket, a soft part or a short thread may rightly lie below");
  if (const auto listed = listed_preload(bolt)) all.push_back(listed_text(bolt, *listed));
  if (question.prevailing) {
    all.push_back(
        fmt::format("running torque {} comes on top of every torque here, twists the bolt and "
                    "makes no preload: "
                    "FAA AC 43.13-1B, par. 7-40; taken to be the same when loosening",
                    write_rounded(*question.prevailing, quantity::TorqueUnit::NewtonMetre)));
  }
  if (assessment.tightened) {
    all.emplace_back(
        "loosening right after tightening, same friction; rust, paint, adhesive and rest raise it");
  }
  return all;
}

std::vector<std::string> notes_on(const BoltPage& bolt) {
  std::vector<std::string> notes;
  if (auto note = bolt.question.thread.note()) notes.push_back(std::move(*note));
  if (const auto& note = bolt.assessment.strength.note) notes.push_back(*note);
  if (fastener::metal_of(bolt.question.grade) == fastener::BoltMetal::Stainless &&
      bolt.question.condition != fastener::Condition::AntiSeize) {
    notes.emplace_back(
        "stainless on stainless seizes when it is dry or run down fast; paste on thread and face "
        "prevents it, and asks for a torque of its own");
  }
  return notes;
}

// What is passed where the friction is as low as it may be: ", but ..."; empty where nothing is.
// The plausible band alone does not say it: it ends at 90 % of yield for the high friction.
std::string passed_at_low_friction(const BoltPage& bolt) {
  const auto& strength = bolt.assessment.strength;
  const auto& tightened = bolt.assessment.tightened;
  if (!tightened) return {};
  const auto share = [](double part, std::string_view whole) {
    return fmt::format(", but at the low friction {:.4g} % of {}", 100.0 * part, whole);
  };
  if (tightened->yield_share.high > 1.0) return share(tightened->yield_share.high, "yield");
  if (tightened->proof_share.high > 1.0) {
    return share(tightened->proof_share.high,
                 strength.proof ? "proof" : "what stands in for proof");
  }
  return {};
}

// What the torque means in one sentence.
std::string verdict(const BoltPage& bolt) {
  const auto torque = bolt.torque->torque();
  const auto& advice = *bolt.assessment.advice;
  if (torque > advice.yields_at) return "above what yields this bolt even at the high friction";
  if (torque > advice.plausible.high) return "above the plausible band";
  if (torque < advice.plausible.low) return "below the plausible band";
  return "within the plausible band" + passed_at_low_friction(bolt);
}

// ---- text

std::string kilonewtons(Force force) {
  return fmt::format("{} kN ({:.0f} lbf)", write_rounded(force.in_newtons() / 1000.0),
                     force.in_pounds_force());
}

std::string both_lengths(Length length, bool metric) {
  return metric ? fmt::format("{:.3f} mm", length.in_millimetres())
                : fmt::format("{:.4f} in ({:.3f} mm)", length.in_inches(), length.in_millimetres());
}

// One value where both are written alike.
std::string fixed_span(double low, double high, int decimals) {
  const auto from = fmt::format("{:.{}f}", low, decimals);
  const auto to = fmt::format("{:.{}f}", high, decimals);
  return from == to ? to : fmt::format("{} to {}", from, to);
}

std::string percents(const FactorBand& band) {
  return fixed_span(100.0 * band.low, 100.0 * band.high, 0) + " %";
}

// The range in each unit, without its name.
std::vector<std::string> in_each_unit(const TorqueRange& range) {
  std::vector<std::string> spans;
  spans.reserve(quantity::kSideBySideUnits.size());
  for (const auto unit : quantity::kSideBySideUnits) {
    spans.push_back(quantity::write_span(quantity::in_unit(range.low, unit),
                                         quantity::in_unit(range.high, unit)));
  }
  return spans;
}

// Labels and what belongs to each behind them, broken there where the page is narrow.
class LabelledRows {
 public:
  void row(std::string label, std::string text) {
    rows_.emplace_back(std::move(label), std::move(text));
  }

  [[nodiscard]] std::string text(std::size_t width) const {
    std::size_t widest = 0;
    for (const auto& [label, _] : rows_) widest = std::max(widest, words::display_width(label));
    const std::string below(widest + 4, ' ');
    std::string lines;
    for (const auto& [label, text] : rows_) {
      const auto first = fmt::format("  {}  ", words::padded_right(label, widest));
      lines += words::wrapped(text, width, first, below);
    }
    return lines;
  }

 private:
  std::vector<std::pair<std::string, std::string>> rows_;
};

std::string bolt_table(const BoltPage& bolt, std::size_t width) {
  const auto& [question, assessment, torque, given, checks] = bolt;
  const auto& thread = question.thread;
  const bool metric = thread.is_metric();
  const auto area = fastener::stress_area(thread);
  const auto& strength = assessment.strength;
  LabelledRows rows;
  rows.row("pitch", both_lengths(thread.pitch(), metric));
  rows.row("pitch diameter", both_lengths(fastener::pitch_diameter(thread), metric));
  rows.row("root diameter", both_lengths(fastener::root_diameter(thread), metric));
  rows.row("stress area", metric ? fmt::format("{:.2f} mm²", area.in_square_millimetres())
                                 : fmt::format("{:.4f} in² ({:.2f} mm²)", area.in_square_inches(),
                                               area.in_square_millimetres()));
  const auto root = fastener::root_area(thread);
  rows.row("root area", metric ? fmt::format("{:.2f} mm²", root.in_square_millimetres())
                               : fmt::format("{:.4f} in² ({:.2f} mm²)", root.in_square_inches(),
                                             root.in_square_millimetres()));
  const auto stress = [&](quantity::Stress value) {
    return fmt::format("{:.0f} MPa ({:.0f} ksi)", value.in_megapascals(),
                       value.in_kips_per_square_inch());
  };
  rows.row(strength.proof ? "proof" : "0.85 of yield",
           fmt::format("{} at {}", kilonewtons(assessment.proof_load),
                       stress(fastener::proof_basis(strength).stress)));
  rows.row("yield",
           fmt::format("{} at {}", kilonewtons(assessment.yield_load), stress(strength.yield)));
  rows.row("tensile",
           fmt::format("{} at {}", kilonewtons(assessment.tensile_load), stress(strength.tensile)));
  if (assessment.advice) {
    const auto& nut_factor = assessment.advice->nut_factor;
    rows.row("nut factor K",
             fixed_span(nut_factor.low, nut_factor.high, 3) + " in T = K d F, from the friction");
  }
  return rows.text(width);
}

// The units side by side, or under each other where the page is too narrow for that.
std::string torque_table(const fastener::TorqueAdvice& advice,
                         const std::optional<fastener::TightenedBolt>& tightened,
                         std::size_t width) {
  const auto& units = quantity::kSideBySideUnits;
  Table beside;
  beside.column("torques");
  for (const auto unit : units) beside.column(quantity::name_of(unit));
  LabelledRows below;
  const auto add = [&](const std::string& label, const TorqueRange& range) {
    auto cells = in_each_unit(range);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      below.row(i == 0 ? label : "", fmt::format("{} {}", cells[i], quantity::name_of(units[i])));
    }
    cells.insert(cells.begin(), "  " + label);
    beside.row(std::move(cells));
  };
  add("plausible", advice.plausible);
  add("for 75 % of proof", advice.for_proof_share);
  if (tightened) add("to loosen", tightened->loosening);
  return beside.width() <= width ? beside.text("") : "torques\n" + below.text(width);
}

std::string tightened_table(const fastener::TightenedBolt& tightened, bool runs_hard,
                            std::size_t width) {
  LabelledRows rows;
  const auto low = kilonewtons(tightened.preload.low);
  const auto high = kilonewtons(tightened.preload.high);
  rows.row("preload", low == high ? high : fmt::format("{} to {}", low, high));
  rows.row("share of proof", percents(tightened.proof_share));
  rows.row("share of yield", percents(tightened.yield_share) + ", pull and twist together");
  rows.row("loosening",
           fixed_span(tightened.loosening_ratio.low, tightened.loosening_ratio.high, 2) +
               (runs_hard ? " times what tightening takes besides the running torque"
                          : " times the tightening torque"));
  return rows.text(width);
}

// The bolt by its name: "M10x1.25 8.8, metric fine, left-hand".
std::string bolt_name(const BoltPage& bolt) {
  const auto& thread = bolt.question.thread;
  return fmt::format(
      "{} {}{}{}", fastener::write_exact(thread), fastener::name_of(bolt.question.grade),
      thread.is_metric() ? fmt::format(", {}", fastener::name_of(thread.series())) : "",
      thread.hand() == fastener::Hand::Left ? ", left-hand" : "");
}

// What the torque does to the bolt, or what makes sense where none was stated.
std::string headline(const BoltPage& bolt) {
  const auto name = fmt::format("{} {}", fastener::write_exact(bolt.question.thread),
                                fastener::name_of(bolt.question.grade));
  const auto& advice = bolt.assessment.advice;
  if (!advice) {
    return fmt::format("{}: no torque is worked out, no friction is known for {}", name,
                       fastener::name_of(bolt.question.condition));
  }
  if (bolt.assessment.tightened) {
    return fmt::format("{} at {}: {}", name,
                       words::side_by_side(bolt.torque->torque(), bolt.torque->unit),
                       verdict(bolt));
  }
  return fmt::format(
      "{}: {} to {} bring it to 75 % of proof", name,
      write_rounded(advice->for_proof_share.low.in_newton_metres()),
      write_rounded(advice->for_proof_share.high, quantity::TorqueUnit::NewtonMetre));
}

// ---- JSON

ordered_json newtons(const fastener::PreloadBand& band) {
  return {{"low", band.low.in_newtons()}, {"high", band.high.in_newtons()}};
}

ordered_json factors(const FactorBand& band) { return {{"low", band.low}, {"high", band.high}}; }

ordered_json newton_metres(const TorqueRange& range) {
  return {{"low", range.low.in_newton_metres()}, {"high", range.high.in_newton_metres()}};
}

}  // namespace

std::string bolt_text(const BoltPage& bolt, const words::Page& page) {
  const auto& [question, assessment, torque, given, checks] = bolt;
  std::string text;
  for (const auto& answer : answers_of(checks)) {
    text += words::wrapped(words::strong(answer, page), page.width, "", "  ");
  }
  text += words::wrapped(words::strong(headline(bolt), page), page.width, "", "  ");
  text += check_details(checks, assessment);
  text += bolt_name(bolt) + "\n" + bolt_table(bolt, page.width);
  if (assessment.tightened)
    text += "at the torque\n" + tightened_table(*assessment.tightened,
                                                bolt.question.prevailing.has_value(), page.width);
  if (assessment.advice) text += torque_table(*assessment.advice, assessment.tightened, page.width);
  text += "assumed\n";
  for (const auto& each : assumptions_of(bolt))
    text += words::wrapped(each, page.width, "  - ", "    ");
  for (const auto& each : assumptions_of(checks))
    text += words::wrapped(each, page.width, "  - ", "    ");
  for (const auto& note : notes_on(bolt))
    text += words::wrapped(note, page.width, "note: ", "      ");
  text +=
      words::wrapped("This is an order of size, never a specification; the maker's figure decides.",
                     page.width, "", "");
  return text;
}

std::string bolt_json(const BoltPage& bolt) {
  const auto& [question, assessment, torque, given, checks] = bolt;
  const auto& thread = question.thread;
  const auto& advice = assessment.advice;
  const auto& tightened = assessment.tightened;
  ordered_json json = {
      {"stress_area_mm2", fastener::stress_area(thread).in_square_millimetres()},
      {"root_area_mm2", fastener::root_area(thread).in_square_millimetres()},
      {"pitch_mm", thread.pitch().in_millimetres()},
      {"proof_load_n", nullptr},
      {"tensile_load_n", assessment.tensile_load.in_newtons()},
      {"preload_n", nullptr},
      {"proof_share", nullptr},
      {"plausible_nm", nullptr},
      {"loosening_nm", nullptr},
      {"assumptions", assumptions_of(bolt)},
      {"size", fastener::write_exact(thread)},
      {"grade", fastener::name_of(question.grade)},
      {"condition", fastener::name_of(question.condition)},
      {"friction", nullptr},
      {"thread_friction", nullptr},
      {"head_friction", nullptr},
      {"bearing_diameter_mm", assessment.bearing.in_millimetres()},
      {"pitch_diameter_mm", fastener::pitch_diameter(thread).in_millimetres()},
      {"root_diameter_mm", fastener::root_diameter(thread).in_millimetres()},
      {"yield_load_n", assessment.yield_load.in_newtons()},
      {"torque_nm", nullptr},
      {"yield_share", nullptr},
      {"loosening_ratio", nullptr},
      {"three_quarters_of_proof_nm", nullptr},
      {"yields_at_nm", nullptr},
      {"nut_factor", nullptr},
      {"listed_nut_factor", nullptr},
      {"verdict", nullptr},
      {"notes", notes_on(bolt)},
  };
  if (assessment.strength.proof) json["proof_load_n"] = assessment.proof_load.in_newtons();
  if (torque) json["torque_nm"] = torque->torque().in_newton_metres();
  if (advice) {
    json["plausible_nm"] = newton_metres(advice->plausible);
    const auto& [low, high, origin] = advice->friction;
    json["thread_friction"] = factors({low.thread(), high.thread()});
    json["head_friction"] = factors({low.head(), high.head()});
    if (same_in_thread_and_head(advice->friction)) json["friction"] = json["thread_friction"];
    json["three_quarters_of_proof_nm"] = newton_metres(advice->for_proof_share);
    json["yields_at_nm"] = advice->yields_at.in_newton_metres();
    json["nut_factor"] = factors(advice->nut_factor);
  }
  if (tightened) {
    json["preload_n"] = newtons(tightened->preload);
    json["proof_share"] = factors(tightened->proof_share);
    json["loosening_nm"] = newton_metres(tightened->loosening);
    json["yield_share"] = factors(tightened->yield_share);
    json["loosening_ratio"] = factors(tightened->loosening_ratio);
    json["verdict"] = verdict(bolt);
    if (const auto listed = listed_preload(bolt)) {
      json["listed_nut_factor"] = {{"low", listed->nut_factor.low},
                                   {"typical", listed->nut_factor.typical},
                                   {"high", listed->nut_factor.high},
                                   {"preload_n", newtons(listed->preload)},
                                   {"one_bolt_n", newtons(listed->one_bolt)}};
    }
  }
  for (const auto& each : assumptions_of(checks)) json["assumptions"].push_back(each);
  json["answers"] = answers_of(checks);
  json["answers"].push_back(headline(bolt));
  json.update(checks_json(checks));
  return json_text(kBoltFormat, std::move(json));
}

}  // namespace screen
