#include "fastener/standard_threads.h"

#include <algorithm>
#include <cmath>

namespace fastener {
namespace {

constexpr std::array kMetricSizes = {
    MetricSize{1.6, 0.35, {0.2}},
    MetricSize{1.8, 0.35, {0.2}},
    MetricSize{2, 0.4, {0.25}},
    MetricSize{2.2, 0.45, {0.25}},
    MetricSize{2.5, 0.45, {0.35}},
    MetricSize{3, 0.5, {0.35}},
    MetricSize{3.5, 0.6, {0.35}},
    MetricSize{4, 0.7, {0.5}},
    MetricSize{4.5, 0.75, {0.5}},
    MetricSize{5, 0.8, {0.5}},
    MetricSize{5.5, 0, {0.5}},
    MetricSize{6, 1, {0.75}},
    MetricSize{7, 1, {0.75}},
    MetricSize{8, 1.25, {1, 0.75}},
    MetricSize{9, 1.25, {1, 0.75}},
    MetricSize{10, 1.5, {1.25, 1, 0.75}},
    MetricSize{11, 1.5, {1, 0.75}},
    MetricSize{12, 1.75, {1.5, 1.25, 1}},
    MetricSize{14, 2, {1.5, 1.25, 1}},
    MetricSize{15, 0, {1.5, 1}},
    MetricSize{16, 2, {1.5, 1}},
    MetricSize{17, 0, {1.5, 1}},
    MetricSize{18, 2.5, {2, 1.5, 1}},
    MetricSize{20, 2.5, {2, 1.5, 1}},
    MetricSize{22, 2.5, {2, 1.5, 1}},
    MetricSize{24, 3, {2, 1.5, 1}},
    MetricSize{25, 0, {2, 1.5, 1}},
    MetricSize{26, 0, {1.5}},
    MetricSize{27, 3, {2, 1.5, 1}},
    MetricSize{28, 0, {2, 1.5, 1}},
    MetricSize{30, 3.5, {3, 2, 1.5, 1}},
    MetricSize{32, 0, {2, 1.5}},
    MetricSize{33, 3.5, {3, 2, 1.5}},
    MetricSize{35, 0, {1.5}},
    MetricSize{36, 4, {3, 2, 1.5}},
    MetricSize{38, 0, {1.5}},
    MetricSize{39, 4, {3, 2, 1.5}},
    MetricSize{40, 0, {3, 2, 1.5}},
    MetricSize{42, 4.5, {4, 3, 2, 1.5}},
    MetricSize{45, 4.5, {4, 3, 2, 1.5}},
    MetricSize{48, 5, {4, 3, 2, 1.5}},
    MetricSize{50, 0, {3, 2, 1.5}},
    MetricSize{52, 5, {4, 3, 2, 1.5}},
    MetricSize{55, 0, {4, 3, 2, 1.5}},
    MetricSize{56, 5.5, {4, 3, 2, 1.5}},
    MetricSize{58, 0, {4, 3, 2, 1.5}},
    MetricSize{60, 5.5, {4, 3, 2, 1.5}},
    MetricSize{62, 0, {4, 3, 2, 1.5}},
    MetricSize{64, 6, {4, 3, 2, 1.5}},
};

constexpr std::array kUnifiedSizes = {
    UnifiedSize{"#0", 0.060, 0, 80},
    UnifiedSize{"#1", 0.073, 64, 72},
    UnifiedSize{"#2", 0.086, 56, 64},
    UnifiedSize{"#3", 0.099, 48, 56},
    UnifiedSize{"#4", 0.112, 40, 48},
    UnifiedSize{"#5", 0.125, 40, 44},
    UnifiedSize{"#6", 0.138, 32, 40},
    UnifiedSize{"#8", 0.164, 32, 36},
    UnifiedSize{"#10", 0.190, 24, 32},
    UnifiedSize{"#12", 0.216, 24, 28},
    UnifiedSize{"1/4", 0.25, 20, 28},
    UnifiedSize{"5/16", 0.3125, 18, 24},
    UnifiedSize{"3/8", 0.375, 16, 24},
    UnifiedSize{"7/16", 0.4375, 14, 20},
    UnifiedSize{"1/2", 0.5, 13, 20},
    UnifiedSize{"9/16", 0.5625, 12, 18},
    UnifiedSize{"5/8", 0.625, 11, 18},
    UnifiedSize{"11/16", 0.6875},
    UnifiedSize{"3/4", 0.75, 10, 16},
    UnifiedSize{"13/16", 0.8125},
    UnifiedSize{"7/8", 0.875, 9, 14},
    UnifiedSize{"15/16", 0.9375},
    UnifiedSize{"1", 1.0, 8, 12},
    UnifiedSize{"1-1/8", 1.125, 7, 12, true},
    UnifiedSize{"1-1/4", 1.25, 7, 12, true},
    UnifiedSize{"1-3/8", 1.375, 6, 12, true},
    UnifiedSize{"1-1/2", 1.5, 6, 12, true},
    UnifiedSize{"1-5/8", 1.625, 0, 0, true},
    UnifiedSize{"1-3/4", 1.75, 5, 0, true},
    UnifiedSize{"1-7/8", 1.875, 0, 0, true},
    UnifiedSize{"2", 2.0, 4.5, 0, true},
    UnifiedSize{"2-1/4", 2.25, 4.5, 0, true},
    UnifiedSize{"2-1/2", 2.5, 4, 0, true},
    UnifiedSize{"2-3/4", 2.75, 4, 0, true},
    UnifiedSize{"3", 3.0, 4, 0, true},
    UnifiedSize{"3-1/4", 3.25, 4, 0, true},
    UnifiedSize{"3-1/2", 3.5, 4, 0, true},
    UnifiedSize{"3-3/4", 3.75, 4, 0, true},
    UnifiedSize{"4", 4.0, 4, 0, true},
};

template <class Table, class Test>
auto entry_where(const Table& table, Test test) -> decltype(table.data()) {
  const auto* found = std::find_if(table.begin(), table.end(), test);
  return found == table.end() ? nullptr : found;
}

}  // namespace

const MetricSize* find_metric_size(double diameter_mm) {
  return entry_where(kMetricSizes,
                     [=](const MetricSize& size) { return size.diameter_mm == diameter_mm; });
}

const UnifiedSize* find_unified_size(std::string_view name) {
  return entry_where(kUnifiedSizes, [=](const UnifiedSize& size) { return size.name == name; });
}

const UnifiedSize* find_unified_size(double diameter_in) {
  return entry_where(kUnifiedSizes, [=](const UnifiedSize& size) {
    return std::fabs(size.diameter_in - diameter_in) <= 0.0005;
  });
}

}  // namespace fastener
