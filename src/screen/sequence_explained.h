#pragma once

#include <string>
#include <vector>

#include "plan/neighbour_loss.h"
#include "words/text.h"

namespace screen {

// Why the passes are as they are: for each joint, first what its first fasteners have lost when the
// last one is tightened, what a check round leaves of it and how evenly the order loads the joint,
// then the reasons with their sources.
[[nodiscard]] std::string sequence_explained_text(const std::vector<plan::NeighbourLoss>& losses,
                                                  const words::Page& page);

// {"joints":[{"joint","positions":[..],"raised","later_neighbours","worst":[..],"lost",
// "off_middle","off_middle_as_counted","check_round","left_after_check"|null}],
// "embedding":{"low","high"},"five_days":{"low","high"},"reasons":[..]}: shares as ratios;
// off_middle is the worst of plan/load_balance.h.
[[nodiscard]] std::string sequence_explained_json(const std::vector<plan::NeighbourLoss>& losses);

}  // namespace screen
