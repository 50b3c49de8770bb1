#pragma once

#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/logbook.h"
#include "logbook/same_logbook.h"
#include "phone/asked.h"
#include "phone/pairing.h"
#include "phone/phones.h"
#include "record/moment.h"

namespace phone {

// Where a photograph is sent to, which alone may be longer than a deed.
inline constexpr std::string_view kPhotographPath = "/api/photograph";

// What the phones are answered from.
struct Place {
  std::string logbook;           // the file
  std::filesystem::path folder;  // where the paired phones are kept
  std::function<record::Moment()> now;
  std::function<std::string()> device;
  bool is_secure = false;  // the way to the phones is TLS
  int port = 0;
};

// Answers what the pages ask. Everything that reads or writes the logbook asks for a paired phone;
// the pages themselves hold nothing of it. One request at a time, each with the logbook open for as
// long as it takes, so that a command of the terminal works beside it.
class Desk {
 public:
  explicit Desk(Place place);

  // Never throws what a request can bring about.
  [[nodiscard]] Answer answer(const Asked& asked);

  // Whether this comes from a phone that is paired, whatever it asks: it is asked before anything
  // long is read.
  [[nodiscard]] bool has_leave(const Asked& asked);

  // The code that the next phone is paired with.
  [[nodiscard]] std::string code() const;

  // What has happened since that is to be told on the terminal, with the code that counts from then
  // on: a phone was paired, or many wrong codes were tried.
  [[nodiscard]] std::vector<std::string> take_news();

  // Why what was taken here is not all in the logbook as it lies there now, as where another file
  // was moved over it; nothing where it is.
  [[nodiscard]] std::optional<std::string> what_is_lost();

 private:
  [[nodiscard]] Answer answer_api(const Asked& asked);
  [[nodiscard]] std::optional<Answer> turned_away(const Asked& asked, std::string& who);
  [[nodiscard]] Answer pair(const Asked& asked);
  [[nodiscard]] Answer deed(const Asked& asked, const std::string& who);
  [[nodiscard]] Answer picture(const std::string& sha256);
  [[nodiscard]] Answer view(const Asked& asked, const std::string& who);
  [[nodiscard]] std::string cookie_name() const;
  [[nodiscard]] std::string cookie(const std::string& token, bool is_kept) const;
  [[nodiscard]] std::string first_seen();
  [[nodiscard]] logbook::Logbook open_to_read() const;
  [[nodiscard]] logbook::Logbook open_to_write() const;

  Place place_;
  Phones phones_;
  mutable std::mutex one_at_a_time_;
  PairingCode code_;
  RateLimit pairings_;
  RateLimit requests_;
  logbook::SameLogbook same_;  // a file of that name may come from elsewhere meanwhile
  std::string first_id_;
  std::vector<std::string> news_;
};

// True where the address of a request is one of this machine and no name that somebody else may
// have pointed at it: an IP address, localhost, or a name without a dot or under .local.
[[nodiscard]] bool is_own_host(std::string_view host);

}  // namespace phone
