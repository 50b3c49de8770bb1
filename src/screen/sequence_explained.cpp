#include "screen/sequence_explained.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "fastener/settling.h"
#include "screen/json_text.h"
#include "words/pass_text.h"

namespace screen {
namespace {

using nlohmann::ordered_json;
using plan::NeighbourLoss;

std::string up_to(quantity::Percent share) { return fmt::format("{:.0f} %", share.in_percent()); }

std::string numbers_text(const std::vector<int>& positions) {
  std::string text;
  for (const int position : positions) {
    text += fmt::format("{}{}", text.empty() ? "" : ", ", position);
  }
  return text;
}

std::string explained(const NeighbourLoss& loss, const words::Page& page) {
  const auto name = fmt::format("{}{}", loss.joint->state->joint->code,
                                words::at_positions(*loss.joint, loss.positions));
  const auto answer =
      loss.checked
          ? fmt::format(
                "{}: up to {} lost to neighbours when the last one is tight, at most {} "
                "after the check round",
                name, up_to(loss.lost), up_to(loss.left))
          : fmt::format(
                "{}: up to {} lost to neighbours when the last one is tight; no check round "
                "follows that would bring it back",
                name, up_to(loss.lost));
  const auto rise = loss.by_angle
                        ? std::string(
                              "the last rising pass turns by an angle, and as no torque says how "
                              "much that adds, all of the final value is counted")
                        : fmt::format("the last rising pass adds {:.0f} % of the final torque",
                                      100.0 * loss.raised);
  const bool one = loss.worst.size() == 1;
  const auto why = fmt::format(
      "{}; {} {} {} of two neighbours still to come and {} most, those tightened last lose nothing",
      rise, numbers_text(loss.worst), one ? "has" : "have", loss.most_later,
      one ? "loses" : "lose");
  const auto even = fmt::format(
      "in this order their pull stands off the middle by {:.0f} % at most, in counting order by "
      "{:.0f} %; all of it at the farthest would be 100 %",
      100.0 * loss.balance.worst, 100.0 * loss.as_counted.worst);
  return words::wrapped(words::strong(answer, page), page.width, "", "  ") +
         words::wrapped(why, page.width, "  ", "  ") + words::wrapped(even, page.width, "  ", "  ");
}

ordered_json band_json(const fastener::LossBand& band) {
  return {{"low", band.low.ratio()}, {"high", band.high.ratio()}};
}

// What all joints have in common, with sources.
std::vector<std::string> reasons() {
  const auto embedding = fastener::embedding_loss();
  const auto days = fastener::five_day_loss();
  const auto neighbours = fastener::neighbour_loss(2, 1.0);
  return {
      fmt::format(
          "a bolt presses the parts together beside it, and its neighbours grow slack: 0 to "
          "{:.0f} % of what they were raised by ({}; the one figure that was found); more with a "
          "gasket, and all of it where the faces do not lie together yet (commentary of the RCSC "
          "specification)",
          neighbours.high.in_percent(), neighbours.origin.source),
      ("so passes rise in steps, each taking only from its own step, and a last round at the final "
       "value brings back what was lost: it raises little, so its neighbours take little"),
      fmt::format(
          "faces and threads bed in by {:.0f} to {:.0f} %, most of it at once ({}): between "
          "two passes the check round finds some of it",
          embedding.low.in_percent(), embedding.high.in_percent(), embedding.origin.source),
      fmt::format(
          "within five days bare joints lose another {:g} %, galvanized ones {:g} % ({}); a "
          "gasketed flange is gone round again after at least 4 h, before service",
          days.low.in_percent(), days.high.in_percent(), days.origin.source),
      fmt::format(
          "thick paint or zinc on many faces loses more than these bands: {:.0f} % after 500 h on "
          "the flange of a wind tower (second-hand); a gasketed pipe flange 80 to 100 % between "
          "its first passes (abstract of a test)",
          fastener::kBeyondTheBand.in_percent())};
}

}  // namespace

std::string sequence_explained_text(const std::vector<NeighbourLoss>& losses,
                                    const words::Page& page) {
  if (losses.empty()) {
    return words::wrapped(
        "nothing to explain: no joint of two or more fasteners is brought to a torque", page.width,
        "", "");
  }
  std::string text;
  for (const auto& loss : losses) text += explained(loss, page);
  text += "why\n";
  for (const auto& reason : reasons()) text += words::wrapped(reason, page.width, "  - ", "    ");
  return text;
}

std::string sequence_explained_json(const std::vector<NeighbourLoss>& losses) {
  ordered_json json = {{"joints", ordered_json::array()},
                       {"embedding", band_json(fastener::embedding_loss())},
                       {"five_days", band_json(fastener::five_day_loss())},
                       {"reasons", reasons()}};
  for (const auto& loss : losses) {
    json["joints"].push_back({{"joint", loss.joint->state->joint->code},
                              {"positions", loss.positions},
                              {"raised", loss.raised},
                              {"by_angle", loss.by_angle},
                              {"later_neighbours", loss.most_later},
                              {"worst", loss.worst},
                              {"lost", loss.lost.ratio()},
                              {"off_middle", loss.balance.worst},
                              {"off_middle_as_counted", loss.as_counted.worst},
                              {"check_round", loss.checked},
                              {"left_after_check", loss.checked ? ordered_json(loss.left.ratio())
                                                                : ordered_json(nullptr)}});
  }
  return json_text(kNeighbourLossesFormat, std::move(json));
}

}  // namespace screen
