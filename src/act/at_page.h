#pragma once

#include <string>
#include <utility>

namespace act {

// What a failure says to whoever tapped on a page, which has keys where a command has options.
class SaidAtPage {
 public:
  explicit SaidAtPage(std::string at_page) : at_page_(std::move(at_page)) {}
  [[nodiscard]] const std::string& at_page() const { return at_page_; }

 protected:
  ~SaidAtPage() = default;

 private:
  std::string at_page_;
};

// A failure of this kind that asks for an option, and the same for a page.
template <class Kind>
class AtPage : public Kind, public SaidAtPage {
 public:
  AtPage(const std::string& message, std::string at_page)
      : Kind(message), SaidAtPage(std::move(at_page)) {}
};

}  // namespace act
