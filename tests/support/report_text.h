#pragma once

#include <string>

#include "paper/report_page.h"

// The report in one piece.
inline std::string report_page(const paper::ReportContent& content, const paper::Imprint& imprint) {
  std::string page;
  paper::write_report(content, imprint, [&](std::string_view piece) { page += piece; });
  return page;
}
