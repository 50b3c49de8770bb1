#include "screen/drift_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/found_value.h"

namespace screen {
namespace {

constexpr std::size_t kMostDriftRows = 40;

using finding::DriftJoint;
using nlohmann::ordered_json;

bool is_shown(const DriftPage& page_of, const finding::JointState& joint) {
  return page_of.joints.empty() ||
         std::ranges::any_of(page_of.joints, [&](const std::string& code) {
           return record::same_code(code, joint.joint->code);
         });
}

std::string heading(const DriftJoint& joint) {
  std::string text = fmt::format("{}  {}", joint.here->joint->code, joint.here->joint->holds);
  if (joint.median) {
    text += fmt::format("; median ratio {:.3f} of {}", *joint.median, joint.rows.size());
  } else {
    text += "; no fastener has a torque to compare in both";
  }
  return text;
}

std::string word_of(const finding::DriftRow& row) {
  if (row.outside) return row.changed ? "OUTSIDE, CHANGED" : "OUTSIDE";
  return row.changed ? "CHANGED" : "";
}

// What the word in the last column means; empty where no row has it.
std::string changed_text(const finding::Drift& drift) {
  const bool any = std::ranges::any_of(drift.joints, [](const DriftJoint& joint) {
    return std::ranges::any_of(joint.rows, &finding::DriftRow::changed);
  });
  return any ? "CHANGED: |E_n| above 1, a difference that the uncertainties of the two do not "
               "explain"
             : "";
}

std::string rows_text(const DriftJoint& joint, quantity::TorqueUnit unit, bool all) {
  const auto number = [&](const finding::Finding& finding) {
    return fmt::format("{} {}", words::found_value(finding.torque, unit),
                       finding::letter_of(finding.graded.grade));
  };
  Table table;
  table.column("position");
  table.column(fmt::format("this {}", quantity::name_of(unit)), Table::Align::Right);
  table.column(fmt::format("other {}", quantity::name_of(unit)), Table::Align::Right);
  table.column("ratio", Table::Align::Right);
  table.column("E_n", Table::Align::Right);
  table.column("");
  for (const auto& row : joint.rows) {
    if (!all && !row.outside && !row.changed) continue;
    table.row({record::write_address(joint.here->joint->code, row.position), number(*row.here),
               number(*row.there), fmt::format("{:.3f}", row.ratio), fmt::format("{:.1f}", row.e_n),
               word_of(row)});
  }
  return table.text("  ");
}

// The rows that are shown, and of them those that went their own way.
struct DriftCount {
  std::size_t rows = 0;
  std::size_t outside = 0;
  std::size_t changed = 0;

  void add(const DriftJoint& joint) {
    rows += joint.rows.size();
    outside +=
        static_cast<std::size_t>(std::ranges::count_if(joint.rows, &finding::DriftRow::outside));
    changed +=
        static_cast<std::size_t>(std::ranges::count_if(joint.rows, &finding::DriftRow::changed));
  }
};

DriftCount counted(const DriftPage& page_of) {
  DriftCount count;
  for (const auto& joint : page_of.drift.joints) {
    if (is_shown(page_of, *joint.here)) count.add(joint);
  }
  return count;
}

bool stands_out(const DriftJoint& joint) {
  return std::ranges::any_of(
      joint.rows, [](const finding::DriftRow& row) { return row.outside || row.changed; });
}

std::string codes_text(const std::vector<const finding::JointState*>& joints) {
  std::string text;
  for (const auto* joint : joints) text += (text.empty() ? "" : ", ") + joint->joint->code;
  return text;
}

std::string band_text(const finding::Drift& drift) {
  if (!drift.band) {
    return fmt::format(
        "no control band: {} of joints that are alike, and at least {} are asked for",
        words::counted(drift.charted, "ratio"), finding::kLeastForBand);
  }
  const auto& band = *drift.band;
  std::string text = fmt::format(
      "control band {:.3f} to {:.3f} about {:.3f}: individuals chart, mean moving "
      "range {:.4f} of {} ratios",
      band.low, band.high, band.centre, band.mean_moving_range, drift.charted);
  if (drift.charted < finding::kEnoughForBand) {
    text += fmt::format("; rough, {} or more are usual", finding::kEnoughForBand);
  }
  return text;
}

ordered_json codes_json(const std::vector<const finding::JointState*>& joints) {
  auto codes = ordered_json::array();
  for (const auto* joint : joints) codes.push_back(joint->joint->code);
  return codes;
}

}  // namespace

std::string drift_in_short(const DriftPage& page_of, const words::Page& page) {
  const auto count = counted(page_of);
  return words::wrapped(
      words::strong(
          fmt::format("{} found in both: {} outside the control band, {} changed",
                      words::counted(count.rows, "fastener"), count.outside, count.changed),
          page),
      page.width, "", "  ");
}

std::string drift_text(const DriftPage& page_of, const words::Page& page) {
  const auto& drift = page_of.drift;
  const auto count = counted(page_of);
  const bool all = page_of.whole.empty() || shown_of(count.rows, kMostDriftRows) == count.rows;
  std::size_t left_out = 0;
  std::string text = drift_in_short(page_of, page) +
                     words::wrapped("this: " + page_of.here.machine, page.width, "", "  ") +
                     words::wrapped("other: " + page_of.there.machine, page.width, "", "  ");
  const auto indented = [&](const std::string& line) {
    return words::wrapped(line, page.width, "  ", "    ");
  };
  std::vector<const finding::JointState*> without_pair;
  for (const auto& joint : drift.joints) {
    if (!is_shown(page_of, *joint.here)) continue;
    if (joint.rows.empty() && joint.alike()) {
      without_pair.push_back(joint.here);
      continue;
    }
    text += '\n' + words::wrapped(heading(joint), page.width, "", "  ");
    if (all || stands_out(joint)) {
      if (!joint.rows.empty()) text += rows_text(joint, page_of.here.unit, all);
    }
    if (!all) {
      left_out += static_cast<std::size_t>(std::ranges::count_if(
          joint.rows, [](const auto& row) { return !row.outside && !row.changed; }));
    }
    for (const auto& difference : joint.differs) text += indented("not alike: " + difference);
    if (!joint.alike() && !joint.rows.empty()) text += indented("so kept out of the band");
    if (!joint.in_one.empty()) {
      text += indented("a torque to compare in one of the two alone: " +
                       record::write_positions(joint.in_one));
    }
  }
  text += and_more(left_out, page_of.whole, page);
  text += '\n' + words::wrapped(band_text(drift), page.width, "", "  ");
  if (const auto changed = changed_text(drift); !changed.empty()) {
    text += words::wrapped(changed, page.width, "", "  ");
  }
  const auto tell = [&](std::string_view what,
                        const std::vector<const finding::JointState*>& joints) {
    if (joints.empty()) return;
    text += words::wrapped(fmt::format("{}: {}", what, codes_text(joints)), page.width, "", "  ");
  };
  tell("no fastener has a torque to compare in both", without_pair);
  tell("only in this logbook", drift.only_here);
  tell("only in the other", drift.only_there);
  return text;
}

std::string drift_json(const DriftPage& page_of) {
  const auto& drift = page_of.drift;
  auto rows = ordered_json::array();
  auto joints = ordered_json::array();
  for (const auto& joint : drift.joints) {
    if (!is_shown(page_of, *joint.here)) continue;
    const auto& code = joint.here->joint->code;
    for (const auto& row : joint.rows) {
      rows.push_back({{"joint", code},
                      {"position", row.position},
                      {"this_nm", newton_metres_or_null(row.here->torque.best)},
                      {"other_nm", newton_metres_or_null(row.there->torque.best)},
                      {"ratio", row.ratio},
                      {"outside", row.outside},
                      {"e_n", row.e_n},
                      {"changed", row.changed}});
    }
    ordered_json summary = {{"joint", code},
                            {"median", nullptr},
                            {"of", joint.rows.size()},
                            {"differs", joint.differs},
                            {"in_one", joint.in_one}};
    if (joint.median) summary["median"] = *joint.median;
    joints.push_back(std::move(summary));
  }
  ordered_json json = {{"machine", page_of.here.machine},
                       {"other_machine", page_of.there.machine},
                       {"rows", std::move(rows)},
                       {"joints", std::move(joints)},
                       {"band", nullptr},
                       {"only_here", codes_json(drift.only_here)},
                       {"only_there", codes_json(drift.only_there)}};
  if (const auto& band = drift.band) {
    json["band"] = {{"centre", band->centre},
                    {"low", band->low},
                    {"high", band->high},
                    {"mean_moving_range", band->mean_moving_range},
                    {"of", drift.charted}};
  }
  return json_text(kDriftFormat, std::move(json));
}

}  // namespace screen
