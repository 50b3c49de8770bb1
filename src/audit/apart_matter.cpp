#include "audit/apart_matter.h"

#include <fmt/format.h>

#include <utility>

#include "audit/flag.h"

namespace audit {

Statement side(const record::Stamp& stamp) {
  return {fmt::format("line {} ({})", stamp.line, stamp.by), stamp.id + '|'};
}

Deviation flag_matter(const Rule& rule, Level level, std::string_view matter, Statement says,
                      std::string what_to_do) {
  auto deviation = flag_job(rule, level, std::move(says), std::move(what_to_do));
  deviation.id = fmt::format("{}:{}", dashed(rule.name), dashed(matter));
  deviation.parts.front().id = deviation.id;
  return deviation;
}

}  // namespace audit
