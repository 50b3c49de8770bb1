#include "record/content_check.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/part_material.h"
#include "fastener/thread_text.h"
#include "record/pass_rule.h"
#include "record/stated_order.h"

namespace record {
namespace {

// What `look` refuses, with what it is in the joint.
template <class Look>
void check_named(const char* what, const Look& look) {
  try {
    look();
  } catch (const failure::InputError& error) {
    throw failure::InputError(fmt::format("{}: {}", what, error.what()));
  }
}

}  // namespace

template <>
void check_content(const Joint& joint) {
  check_as_typed(joint);
  check_named("layout", [&] { check_count(joint.layout, joint.count); });
  check_named("size", [&] { (void)fastener::read_thread(joint.size); });
  if (!joint.order.empty()) {
    check_named("order", [&] { (void)read_stated_order(joint.order, joint.count); });
  }
  if (!joint.passes.empty()) check_named("passes", [&] { (void)pass_rule_named(joint.passes); });
  if (!joint.into.empty()) {
    check_named("into", [&] { (void)fastener::read_part_material(joint.into); });
  }
  if (!joint.seat.empty()) {
    check_named("seat", [&] { (void)fastener::read_part_material(joint.seat); });
  }
  if (joint.face) {
    const auto hole = fastener::usual_seat(fastener::read_thread(joint.size)).hole;
    check_named("face", [&] { (void)fastener::bearing_diameter(*joint.face, hole); });
  }
}

template <>
void check_content(const Removal& removal) {
  check_as_typed(removal);
  if (removal.other_size.empty()) return;
  check_named("other size", [&] { (void)fastener::read_thread(removal.other_size); });
}

}  // namespace record
