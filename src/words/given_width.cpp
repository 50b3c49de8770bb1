#include "words/given_width.h"

#include <algorithm>
#include <utility>

#include "quantity/ascii.h"
#include "words/text.h"

namespace words {
namespace {

thread_local const GivenAs::Change* change_of_thread = nullptr;

}  // namespace

GivenAs::GivenAs(Change change) : change_(std::move(change)), before_(change_of_thread) {
  change_of_thread = &change_;
}

GivenAs::~GivenAs() { change_of_thread = before_; }

std::size_t given_width(std::string_view text) {
  const bool stays = change_of_thread == nullptr || !*change_of_thread ||
                     std::ranges::all_of(text, quantity::is_plain);
  return stays ? display_width(text) : display_width((*change_of_thread)(text));
}

}  // namespace words
