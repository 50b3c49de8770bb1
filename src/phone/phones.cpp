#include "phone/phones.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <system_error>

#include "exchange/strict_json.h"
#include "failure/failure.h"
#include "logbook/digest.h"
#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "logbook/secret.h"
#include "screen/json_text.h"

namespace phone {
namespace {

constexpr std::size_t kTokenBytes = 32;

[[noreturn]] void refuse_phones_file(const std::filesystem::path& file, const std::string& why) {
  throw failure::OutputLost(fmt::format("the paired phones in {}: {}", file.string(), why));
}

std::string member(const nlohmann::ordered_json& phone, const char* name) {
  const auto found = phone.find(name);
  if (found == phone.end() || !found->is_string()) {
    throw failure::InputError(fmt::format("\"{}\" is missing", name));
  }
  return found->get<std::string>();
}

}  // namespace

Phones::Phones(std::filesystem::path folder) : file_(std::move(folder) / "phones.json") {}

std::vector<PairedPhone> Phones::all() const {
  struct stat status {};
  if (::stat(file_.c_str(), &status) != 0) {
    if (errno == ENOENT) return {};
    refuse_phones_file(file_, fmt::format("{}; check its permissions", std::strerror(errno)));
  }
  if (!S_ISREG(status.st_mode) || (status.st_mode & 077U) != 0) {
    refuse_phones_file(file_,
                       "others may read it; take that away with chmod 600, or move it away "
                       "and pair the phones anew");
  }
  std::ifstream stream(file_, std::ios::binary);
  std::ostringstream content;
  content << stream.rdbuf();
  if (!stream || !content) refuse_phones_file(file_, "it cannot be read; check its permissions");
  std::vector<PairedPhone> phones;
  try {
    const auto document = exchange::read_strict_json(content.str(), {}, {});
    for (const auto& phone : document) {
      phones.push_back({member(phone, "who"), member(phone, "paired_at"), member(phone, "logbook"),
                        member(phone, "token_sha256")});
    }
  } catch (const failure::InputError& error) {
    refuse_phones_file(file_,
                       fmt::format("{}; move it away and pair the phones anew", error.what()));
  }
  return phones;
}

// Whole or not at all, and for nobody else to read from its first byte on.
void Phones::keep(const std::vector<PairedPhone>& phones) const {
  auto document = nlohmann::ordered_json::array();
  for (const auto& phone : phones) {
    document.push_back({{"who", phone.who},
                        {"paired_at", phone.paired_at},
                        {"logbook", phone.logbook},
                        {"token_sha256", phone.token_hash}});
  }
  const auto text = screen::json_of_no_answer(document);
  std::error_code problem;
  std::filesystem::create_directories(file_.parent_path(), problem);
  const logbook::DraftFile draft(file_.parent_path(), 0600U);
  if (!draft.fill(text)) {
    refuse_phones_file(file_,
                       fmt::format("it cannot be written: {}", logbook::why_not_written(errno)));
  }
  draft.replace(file_);
}

std::string Phones::admit(const std::string& who, const std::string& logbook,
                          record::Moment now) const {
  auto phones = all();
  auto token = logbook::random_secret(kTokenBytes);
  phones.push_back({who, record::write_utc(now), logbook, logbook::sha256(token)});
  keep(phones);
  return token;
}

std::optional<std::string> Phones::owner_of(const std::string& token,
                                            const std::string& logbook) const {
  const auto hash = logbook::sha256(token);
  std::optional<std::string> owner;
  // All of them are looked at, whichever it is.
  for (const auto& phone : all()) {
    if (logbook::is_same_secret(hash, phone.token_hash) && phone.logbook == logbook) {
      owner = phone.who;
    }
  }
  return owner;
}

std::vector<PairedPhone> Phones::of(const std::string& logbook) const {
  auto phones = all();
  std::erase_if(phones, [&](const auto& phone) { return phone.logbook != logbook; });
  return phones;
}

std::size_t Phones::forget(const std::string& who, const std::string& logbook) const {
  auto phones = all();
  const auto forgotten = std::erase_if(
      phones, [&](const auto& phone) { return phone.logbook == logbook && phone.who == who; });
  if (forgotten > 0) keep(phones);
  return forgotten;
}

}  // namespace phone
