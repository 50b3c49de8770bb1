#include "screen/bolt_checks.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "screen/table.h"

namespace screen {
namespace {

using fastener::FirstToFail;
using fastener::TurnVerdict;
using finding::answer;
using finding::EngagementCheck;
using finding::SeatCheck;
using nlohmann::ordered_json;
using quantity::Force;
using quantity::Length;
using quantity::Stress;
using quantity::write_rounded;

std::string short_length(Length length) {
  return write_rounded(length.in_millimetres(), 3) + " mm";
}

std::string short_force(Force force) {
  return write_rounded(force.in_newtons() / 1000.0, 3) + " kN";
}

std::string short_span(double low, double high, std::string_view unit) {
  return fmt::format("{} {}", quantity::write_span(low, high, 3), unit);
}

std::string whole_degrees(quantity::Angle angle) {
  return fmt::format("{:.0f}°", angle.in_degrees());
}

// The verdict's own name in the JSON.
std::string_view name_of(FirstToFail first) {
  switch (first) {
    case FirstToFail::Bolt:
      return "bolt";
    case FirstToFail::ThreadPerhaps:
      return "bolt yields, thread may strip";
    case FirstToFail::Thread:
      return "thread";
  }
  return "";
}

std::string_view name_of(TurnVerdict verdict) {
  switch (verdict) {
    case TurnVerdict::TooLittle:
      return "too little";
    case TurnVerdict::Elastic:
      return "elastic";
    case TurnVerdict::MayYield:
      return "may yield";
    case TurnVerdict::Yields:
      return "yields";
    case TurnVerdict::TooMuch:
      return "too much";
  }
  return "";
}

// ---- answers

std::string answer(const TurnCheck& check) {
  const auto asked = fmt::format(
      "{}{} on {} under the head", quantity::write_exact(check.turn),
      check.seated_at ? " after " + quantity::write_exact(*check.seated_at) : std::string(),
      short_length(check.under_head));
  switch (check.verdict) {
    case TurnVerdict::TooLittle:
      return fmt::format("{}: hardly clamps, below {}; check the angle and the length", asked,
                         whole_degrees(check.limits.clamps));
    case TurnVerdict::Elastic:
      return fmt::format("{}: plausible, the bolt stays elastic up to {}", asked,
                         whole_degrees(check.limits.yields_from));
    case TurnVerdict::MayYield:
      return fmt::format("{}: plausible, the bolt may yield ({} to {})", asked,
                         whole_degrees(check.limits.yields_from),
                         whole_degrees(check.limits.yields_by));
    case TurnVerdict::Yields:
      return fmt::format("{}: yields any bolt (from {}), so it is a bolt to renew each time", asked,
                         whole_degrees(check.limits.yields_by));
    case TurnVerdict::TooMuch:
      return fmt::format("{}: more than this bolt should be stretched, {} at most; check the angle",
                         asked, whole_degrees(check.limits.most));
  }
  return {};
}

std::string answer(const LoosenedCheck& check) {
  return fmt::format("the preload was {} kN, whatever the friction: {} on, {} off",
                     quantity::write_with_uncertainty(check.found.preload.in_newtons() / 1000.0,
                                                      check.found.expanded.in_newtons() / 1000.0),
                     quantity::write_exact(check.on), quantity::write_exact(check.off));
}

std::string answer(const OwnNutFactor& own) {
  const auto half = fastener::mean_half_width(own.factors);
  return fmt::format(
      "K {} from {}{}; 75 % of proof then takes {} N·m",
      half && *half > 0.0 ? quantity::write_with_uncertainty(own.factors.mean, *half)
                          : write_rounded(own.factors.mean, 3),
      words::counted(own.factors.count, "test"),
      own.by_stretch ? fmt::format(", but {} for what section and stretched length may be",
                                   quantity::write_span(own.by_stretch->low, own.by_stretch->high,
                                                        quantity::kUncertaintyDigits))
                     : std::string(),
      write_rounded(own.for_proof_share.in_newton_metres(), 3));
}

// ---- details

void details_of(const EngagementCheck& check, const fastener::BoltAssessment& bolt, Table& table) {
  if (check.strips) {
    table.row(
        {check.strips->hole_strips ? "the part's thread strips at" : "the bolt's thread strips at",
         fmt::format("{}", short_span(check.strips->low.in_newtons() / 1000.0,
                                      check.strips->high.in_newtons() / 1000.0, "kN"))});
  }
  table.row({"the bolt yields at", short_force(bolt.yield_load)});
  table.row({"the bolt breaks at",
             fmt::format("{} to {}", short_force(bolt.tensile_load),
                         short_force(bolt.tensile_load * fastener::kStrongestOverLeast))});
  table.row({"shear strength of the part",
             fmt::format("{} MPa",
                         write_rounded(fastener::shear_strength(check.part).in_megapascals(), 3))});
  if (bolt.tightened) {
    table.row({"preload at the torque",
               short_span(bolt.tightened->preload.low.in_newtons() / 1000.0,
                          bolt.tightened->preload.high.in_newtons() / 1000.0, "kN")});
  }
}

void details_of(const SeatCheck& check, Table& table) {
  table.row(
      {"the head bears on", fmt::format("{} outside, {} inside", short_length(check.ring.face),
                                        short_length(check.ring.hole))});
}

void details_of(const TurnCheck& check, Table& table) {
  table.row({"clamps from", whole_degrees(check.limits.clamps)});
  table.row({"may yield from", whole_degrees(check.limits.yields_from)});
  table.row({"yields any bolt from", whole_degrees(check.limits.yields_by)});
  table.row({"at most", whole_degrees(check.limits.most)});
}

void details_of(const LoosenedCheck& check, Table& table) {
  table.row({"by the readings alone",
             fmt::format("±{} kN", quantity::write_uncertainty(
                                       check.found.from_readings.in_newtons() / 1000.0))});
  table.row({"nut factor K", write_rounded(check.nut_factor, 3)});
}

void details_of(const OwnNutFactor& own, Table& table) {
  if (own.factors.count < 2) return;
  const double scatter = 200.0 * own.factors.deviation / own.factors.mean;
  table.row({"scatter of the tests", fmt::format("±{:.0f} % (2 s, s = {})", scatter,
                                                 write_rounded(own.factors.deviation, 2))});
  if (own.yardstick) {
    table.row({"usual", fmt::format("±{:.0f} %", own.yardstick->in_percent())});
  }
}

// ---- JSON

ordered_json json_of(const EngagementCheck& check) {
  ordered_json json = {
      {"material", check.part.name},
      {"shear_strength_mpa", fastener::shear_strength(check.part).in_megapascals()},
      {"needed_mm",
       {{"low", check.needed.low.in_millimetres()}, {"high", check.needed.high.in_millimetres()}}},
      {"engaged_mm", nullptr},
      {"strips_n", nullptr},
      {"strips", nullptr},
      {"first_to_fail", nullptr}};
  if (check.engaged) {
    json["engaged_mm"] = check.engaged->in_millimetres();
    json["first_to_fail"] = name_of(fastener::first_to_fail(check.needed, *check.engaged));
  }
  if (check.strips) {
    json["strips_n"] = {{"low", check.strips->low.in_newtons()},
                        {"high", check.strips->high.in_newtons()}};
    json["strips"] = check.strips->hole_strips ? "part" : "bolt";
  }
  return json;
}

ordered_json json_of(const SeatCheck& check) {
  ordered_json json = {
      {"material", check.seat.name},
      {"face_mm", check.ring.face.in_millimetres()},
      {"hole_mm", check.ring.hole.in_millimetres()},
      {"pressure_mpa",
       {{"low", check.low.in_megapascals()}, {"high", check.high.in_megapascals()}}},
      {"at", check.at_torque ? "torque" : "three quarters of proof"},
      {"limit_mpa", nullptr},
      {"limit_confirmed", check.seat.seat_limit_confirmed}};
  if (check.seat.seat_limit) json["limit_mpa"] = check.seat.seat_limit->in_megapascals();
  return json;
}

ordered_json json_of(const TurnCheck& check) {
  return {{"turn_deg", check.turn.in_degrees()},
          {"under_head_mm", check.under_head.in_millimetres()},
          {"clamps_deg", check.limits.clamps.in_degrees()},
          {"yields_from_deg", check.limits.yields_from.in_degrees()},
          {"yields_by_deg", check.limits.yields_by.in_degrees()},
          {"most_deg", check.limits.most.in_degrees()},
          {"verdict", name_of(check.verdict)}};
}

ordered_json json_of(const LoosenedCheck& check) {
  return {{"preload_n", check.found.preload.in_newtons()},
          {"expanded_uncertainty_n", check.found.expanded.in_newtons()},
          {"of_the_readings_n", check.found.from_readings.in_newtons()},
          {"on_nm", check.on.torque().in_newton_metres()},
          {"off_nm", check.off.torque().in_newton_metres()},
          {"nut_factor", check.nut_factor}};
}

ordered_json json_of(const OwnNutFactor& own) {
  ordered_json json = {{"tests", own.factors.count},
                       {"nut_factor", own.factors.mean},
                       {"deviation", nullptr},
                       {"half_width_95", nullptr},
                       {"span", nullptr},
                       {"by", own.by_stretch ? "stretch" : "load"},
                       {"three_quarters_of_proof_nm", own.for_proof_share.in_newton_metres()},
                       {"usual_scatter", nullptr}};
  if (own.by_stretch) {
    json["span"] = {{"low", own.by_stretch->low}, {"high", own.by_stretch->high}};
  }
  if (own.factors.count > 1) json["deviation"] = own.factors.deviation;
  if (const auto half = fastener::mean_half_width(own.factors)) json["half_width_95"] = *half;
  if (own.yardstick) json["usual_scatter"] = own.yardstick->ratio();
  return json;
}

template <class Check>
ordered_json json_or_null(const std::optional<Check>& check) {
  return check ? json_of(*check) : ordered_json(nullptr);
}

Table check_table() {
  Table table;
  table.column("");
  table.column("");
  return table;
}

}  // namespace

std::vector<std::string> answers_of(const BoltChecks& checks) {
  std::vector<std::string> answers;
  const auto add = [&](const auto& check) {
    if (check) answers.push_back(answer(*check));
  };
  add(checks.engagement);
  add(checks.seat);
  add(checks.turn);
  add(checks.loosened);
  add(checks.own_nut_factor);
  return answers;
}

std::string check_details(const BoltChecks& checks, const fastener::BoltAssessment& bolt) {
  std::string text;
  const auto add = [&](std::string_view heading, const auto& fill) {
    auto table = check_table();
    fill(table);
    if (const auto rows = table.text("  "); !rows.empty())
      text += fmt::format("{}\n{}", heading, rows);
  };
  if (checks.engagement) {
    add("engaged thread", [&](Table& table) { details_of(*checks.engagement, bolt, table); });
  }
  if (checks.seat) add("seat", [&](Table& table) { details_of(*checks.seat, table); });
  if (checks.turn) add("turn", [&](Table& table) { details_of(*checks.turn, table); });
  if (checks.loosened) {
    add("tightened and loosened", [&](Table& table) { details_of(*checks.loosened, table); });
  }
  if (checks.own_nut_factor) {
    add("own nut factor", [&](Table& table) { details_of(*checks.own_nut_factor, table); });
  }
  return text;
}

std::vector<std::string> assumptions_of(const BoltChecks& checks) {
  std::vector<std::string> all;
  if (checks.engagement) {
    const auto& part = checks.engagement->part;
    all.push_back(fmt::format("{}: tensile strength {} MPa ({}), {} of it in shear", part.name,
                              write_rounded(part.tensile.in_megapascals(), 3), part.origin.source,
                              write_rounded(fastener::shear_over_tensile(part.kind), 2)));
    all.emplace_back(
        "areas in which threads strip: FED-STD-H28/2B (from memory; 40 published areas agree), at "
        "the ends of 6g in 6H or 2A in 2B that overlap least; until it breaks: a bolt 1.2 times as "
        "strong as its grade, threads bent to 0.897, without 0.8 P at the mouth: VDI 2230 Part 1 "
        "(from memory). The part is solid for 1.9 d around the hole");
  }
  if (checks.seat) {
    const auto& seat = checks.seat->seat;
    if (seat.seat_limit) {
      all.push_back(
          fmt::format("{}: limit of pressure after {}{}", seat.name, seat.origin.source,
                      seat.seat_limit_confirmed ? "" : ", marked there as not confirmed"));
    }
    all.emplace_back(
        "pressure = preload over pi/4 (dw² - dh²): VDI 2230 Part 1, 5.5.4 (from memory); a washer "
        "spreads it by 1.6 times its thickness");
  }
  if (checks.turn) {
    all.emplace_back(
        "a turn adds (angle/360) P kb (1 - C): stretched over the length under the head less none "
        "to 1.5 d, section between stress area and shank, C 0.114 to 0.33 (lost preload of a "
        "stripe); at most is a lasting stretch of 2 % (own choice, no source)");
  }
  if (checks.loosened) {
    all.emplace_back(
        "F = pi (T on - T off)/P: Eccles 2014 (second-hand), from the two torque equations. "
        "Readings within 4 % each, friction 5 % other when loosening (own choice, no source), both "
        "as rectangles, U = 2u; right after tightening, without adhesive or rust. It reads high by "
        "the square of the thread friction over cos 30°, 2 % at 0.12: six published power screws "
        "show it");
  }
  if (checks.own_nut_factor) {
    all.emplace_back(
        checks.own_nut_factor->by_stretch
            ? "K = T/(d F), F = A E/l times the stretch, A between stress area and "
              "shank in the middle, E 206.8 GPa: Shigley 9th ed., Eq. 8-27 and 4-4; ± is "
              "the 95 % interval of the mean"
            : "K = T/(d F): Shigley 9th ed., Eq. 8-27; ± is the 95 % interval of the "
              "mean");
    all.emplace_back(
        "usual scatter of torque on nominally equal bolts: NASA TM-106943, NSTS-08307; Shigley 9th "
        "ed. Tables 8-13 and 8-14 measured 29 % dry and 17 % lubricated (2 s)");
  }
  return all;
}

ordered_json checks_json(const BoltChecks& checks) {
  return {{"engagement", json_or_null(checks.engagement)},
          {"seat", json_or_null(checks.seat)},
          {"turn", json_or_null(checks.turn)},
          {"loosened", json_or_null(checks.loosened)},
          {"own_nut_factor", json_or_null(checks.own_nut_factor)}};
}

}  // namespace screen
