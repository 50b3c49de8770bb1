#include <nlohmann/json.hpp>

#include "failure/failure.h"
#include "fuzz/target.h"
#include "phone/deed.h"

namespace fuzz {

// A request of a phone: what is taken has the id of an entry and no text beyond its length, and is
// the same when it is read once more.
void deed(std::string_view bytes) {
  try {
    const auto read = phone::read_deed(bytes);
    promise(logbook::is_id_tail(read.id.tail), "the id is the tail of an entry's");
    promise(read.id.check.size() == 3, "the check has three digits");
    promise(read.note.size() < phone::kLongestRequest, "no text is longer than a request");
    promise(read.position >= 0 && read.pass >= 0 && read.at >= 0, "no number is below zero");
    promise(phone::read_deed(bytes) == read, "the same request is the same deed");
  } catch (const failure::Failure&) {
  }
  try {
    const auto read = phone::read_photograph(bytes);
    promise(read.kind == phone::kPhotograph, "only a photograph comes with a picture");
    promise(read.picture && !read.picture->empty() && bytes.ends_with(*read.picture),
            "the picture is what stands behind the deed");
    promise(phone::read_photograph(bytes) == read, "the same request is the same photograph");
  } catch (const failure::Failure&) {
  }
  try {
    (void)phone::read_pairing(bytes);
  } catch (const failure::Failure&) {
  }
}

}  // namespace fuzz
