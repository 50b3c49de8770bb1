#pragma once

#include <string>
#include <vector>

#include "plan/neighbour_loss.h"
#include "words/text.h"

namespace screen {

// Why the passes are as they are: for each joint, first what its first fasteners have lost when the
// last one is tightened and what a check round leaves of it, then the reasons with their sources.
[[nodiscard]] std::string sequence_explained_text(const std::vector<plan::NeighbourLoss>& losses,
                                                  const words::Page& page);

// {"joints":[{"joint","positions":[..],"raised","later_neighbours","worst":[..],"lost","check_round",
// "left_after_check"|null}],"embedding":{"low","high"},"five_days":{"low","high"},"reasons":[..]}:
// shares as ratios.
[[nodiscard]] std::string sequence_explained_json(const std::vector<plan::NeighbourLoss>& losses);

}  // namespace screen
