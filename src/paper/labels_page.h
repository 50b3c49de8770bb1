#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "paper/document.h"

namespace paper {

enum class LabelFor {
  Bag,       // the fasteners of a joint that lie in one bag; those still in the machine are one bag
  Position,  // each fastener
};

// Labels for bags, to be cut apart along one line between any two: a QR code of the address, the
// address, how many of how many (of a single one which of them), the bag, size, length and grade,
// what the joint holds, and the machine. The code holds what the commands read, such as J06/1-8;
// with a link, such as http://192.168.1.5:8417/ where phones are served, what opens it there.
[[nodiscard]] std::string labels_page(const std::vector<const finding::JointState*>& joints,
                                      LabelFor what, const Imprint& imprint,
                                      const std::string& link = {});

}  // namespace paper
