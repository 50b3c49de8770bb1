#include "phone/desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <nlohmann/json.hpp>
#include <string_view>

#include "act/at_page.h"
#include "failure/failure.h"
#include "phone/deed.h"
#include "phone/deed_taken.h"
#include "phone/page_file.h"
#include "phone/views.h"
#include "quantity/ascii.h"
#include "record/photograph.h"
#include "record/typed_text.h"
#include "screen/json_text.h"

namespace phone {
namespace {

using nlohmann::ordered_json;

constexpr std::chrono::milliseconds kPatience =
    std::chrono::seconds(3);  // less than a request has (bounds.h)
constexpr std::chrono::milliseconds kAsGoodAsNow = std::chrono::seconds(2);
constexpr std::size_t kPairingsInTime = 6;
constexpr std::size_t kRequestsInTime = 400;
constexpr std::chrono::milliseconds kPairingTime = std::chrono::minutes(1);
constexpr std::chrono::milliseconds kRequestTime = std::chrono::seconds(10);
constexpr std::size_t kLongestName = 80;

// What of this is an answer to a request, and what of a page: only ours, and nothing typed in.
constexpr std::string_view kPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src "
    "'self'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

constexpr std::string_view kJson = "application/json";
constexpr std::string_view kBytes = "application/octet-stream";
constexpr std::string_view kPairPath = "/api/pair";
constexpr std::string_view kDeedPath = "/api/deed";
constexpr std::string_view kPicturePath = "/api/photograph/";

using Header = std::pair<std::string, std::string>;

// Of the logbook, and not of the pages.
bool is_of_logbook(std::string_view path) { return path.starts_with("/api/"); }

Answer json_answer(int status, const ordered_json& document) {
  Answer answer;
  answer.status = status;
  answer.body = screen::json_of_no_answer(document);
  return answer;
}

Answer refusal(int status, const std::string& why) {
  return json_answer(status, {{"refused", why}});
}

std::string type_of(std::string_view name) {
  if (name.ends_with(".html")) return "text/html; charset=utf-8";
  if (name.ends_with(".css")) return "text/css; charset=utf-8";
  if (name.ends_with(".js")) return "text/javascript; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  return "application/octet-stream";
}

// Nothing where there is no such page.
const PageFile* page_at(std::string_view path) {
  const auto name = path == "/" ? std::string_view("index.html") : path.substr(1);
  const auto& files = page_files();
  const auto found = std::ranges::find(files, name, &PageFile::name);
  return found == files.end() ? nullptr : &*found;
}

std::string cookie_in(std::string_view cookies, const std::string& name) {
  std::size_t from = 0;
  while (from < cookies.size()) {
    auto to = cookies.find(';', from);
    if (to == std::string_view::npos) to = cookies.size();
    const auto each = quantity::trimmed(cookies.substr(from, to - from));
    if (each.starts_with(name) && each.substr(name.size()).starts_with('=')) {
      return std::string(each.substr(name.size() + 1));
    }
    from = to + 1;
  }
  return {};
}

// What the person can put right is answered as such; trouble with the logbook is waited out.
Answer answer_to(const failure::Failure& error) {
  const auto* at_page = dynamic_cast<const act::SaidAtPage*>(&error);
  const std::string says = at_page == nullptr ? error.what() : at_page->at_page();
  switch (error.exit_code()) {
    case failure::kNotInOrder:
      return refusal(409, says);
    case failure::kWrongUsage:
      return refusal(400, says);
    default:
      return refusal(503, says);
  }
}

std::string_view host_without_port(std::string_view host) {
  if (host.starts_with('[')) {
    const auto end = host.find(']');
    return end == host.npos ? std::string_view() : host.substr(0, end + 1);
  }
  return host.substr(0, host.find(':'));
}

}  // namespace

bool is_own_host(std::string_view host) {
  const auto name = host_without_port(host);
  if (name.empty()) return false;
  if (name.front() == '[') return true;
  if (name.find_first_not_of("0123456789.") == name.npos) return true;
  if (name.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.") !=
      name.npos) {
    return false;
  }
  return name.find('.') == name.npos || name.ends_with(".local");
}

Desk::Desk(Place place)
    : place_(std::move(place)),
      phones_(place_.folder),
      pairings_(kPairingsInTime, kPairingTime),
      requests_(kRequestsInTime, kRequestTime),
      first_id_(first_seen()) {}

std::string Desk::first_seen() {
  const auto logbook = open_to_read();
  same_.check(logbook);
  return logbook.first_id();
}

// Each request waits for another program that holds the logbook, and is told of that then.
logbook::Logbook Desk::open_to_read() const {
  thread_local logbook::Waiting waiting({}, kPatience);
  return logbook::Logbook::open_to_read(place_.logbook, waiting);
}

logbook::Logbook Desk::open_to_write() const {
  thread_local logbook::Waiting waiting({}, kPatience);
  return logbook::Logbook::open_to_write(place_.logbook, waiting);
}

std::string Desk::code() const {
  const std::lock_guard lock(one_at_a_time_);
  return code_.shown();
}

std::vector<std::string> Desk::take_news() {
  const std::lock_guard lock(one_at_a_time_);
  return std::exchange(news_, {});
}

std::optional<std::string> Desk::what_is_lost() {
  const std::lock_guard lock(one_at_a_time_);
  try {
    same_.check(open_to_read());
    return std::nullopt;
  } catch (const failure::Failure& error) {
    return error.what();
  }
}

// Cookies know no ports: two logbooks served by one machine have one each.
std::string Desk::cookie_name() const { return fmt::format("boltwitness-{}", place_.port); }

std::string Desk::cookie(const std::string& token, bool is_kept) const {
  return fmt::format("{}={}; Path=/; Max-Age={}; HttpOnly; SameSite=Strict{}", cookie_name(), token,
                     is_kept ? 400 * 24 * 3600 : 0, place_.is_secure ? "; Secure" : "");
}

Answer Desk::answer(const Asked& asked) {
  Answer answer;
  try {
    answer = answer_api(asked);
  } catch (const failure::Failure& error) {
    answer = answer_to(error);
  } catch (const std::exception& error) {
    answer = refusal(500, fmt::format("a fault of this program: {}; what was recorded before is "
                                      "safe",
                                      error.what()));
  }
  answer.headers.emplace_back("Content-Security-Policy", kPolicy);
  answer.headers.emplace_back("X-Content-Type-Options", "nosniff");
  answer.headers.emplace_back("Referrer-Policy", "no-referrer");
  answer.headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  answer.headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  if (std::ranges::find(answer.headers, "Cache-Control", &Header::first) == answer.headers.end()) {
    answer.headers.emplace_back("Cache-Control", "no-store");
  }
  return answer;
}

// Why this is answered nothing; nothing where it is. `who` is told where a phone that is paired has
// to ask and does.
std::optional<Answer> Desk::turned_away(const Asked& asked, std::string& who) {
  if (!requests_.take(asked.from)) {
    return refusal(429, "too many requests from this phone in a short time; it goes on by itself");
  }
  // A page from elsewhere that has a name pointed at this machine must not read what is here.
  if (!is_own_host(asked.host)) {
    return refusal(421,
                   "this machine is not called so here; open the address that the terminal "
                   "shows");
  }
  if (asked.method != "GET" && asked.method != "HEAD" && asked.method != "POST") {
    return refusal(405, "only GET and POST are known here");
  }
  if (!is_of_logbook(asked.path)) {
    if (asked.method == "POST") return refusal(405, "there is nothing to be sent to here");
    return std::nullopt;
  }
  if (!asked.site.empty() && asked.site != "same-origin" && asked.site != "none") {
    return refusal(403, "this was asked by a page from elsewhere");
  }
  if (asked.method == "POST") {
    const auto own = fmt::format("{}://{}", place_.is_secure ? "https" : "http", asked.host);
    if (asked.origin != own) return refusal(403, "this was sent by a page from elsewhere");
    const bool is_picture = asked.path == kPhotographPath;
    if (!asked.content_type.starts_with(is_picture ? kBytes : kJson)) {
      return refusal(415, is_picture ? "expected bytes" : "expected JSON");
    }
    if (asked.path == kPairPath) return std::nullopt;
  }
  const auto owner = phones_.owner_of(cookie_in(asked.cookies, cookie_name()), first_id_);
  if (!owner) {
    return refusal(401,
                   "this phone is not paired with the logbook; type the code that the "
                   "terminal shows");
  }
  who = *owner;
  return std::nullopt;
}

Answer Desk::answer_api(const Asked& asked) {
  const std::lock_guard lock(one_at_a_time_);
  std::string who;
  if (auto why = turned_away(asked, who)) return *std::move(why);
  if (!is_of_logbook(asked.path)) {
    const auto* page = page_at(asked.path);
    if (page == nullptr) return refusal(404, "there is no such page here");
    Answer answer;
    answer.type = type_of(page->name);
    answer.body = page->content;
    return answer;
  }
  if (asked.method == "POST") {
    if (asked.path == kPairPath) return pair(asked);
    if (asked.path == kDeedPath || asked.path == kPhotographPath) return deed(asked, who);
    return refusal(404, "there is nothing of that name here");
  }
  if (asked.path.starts_with(kPicturePath)) {
    return picture(asked.path.substr(kPicturePath.size()));
  }
  return view(asked, who);
}

bool Desk::has_leave(const Asked& asked) {
  const std::lock_guard lock(one_at_a_time_);
  try {
    return phones_.owner_of(cookie_in(asked.cookies, cookie_name()), first_id_).has_value();
  } catch (const failure::Failure&) {
    return false;  // as is told once it is answered
  }
}

Answer Desk::pair(const Asked& asked) {
  const auto pairing = read_pairing(asked.body);
  const auto who = record::read_text(pairing.who, "who uses this phone", kLongestName);
  if (!pairings_.take(asked.from)) {
    return refusal(429,
                   "too many codes in a short time; wait a minute, then type the one that the "
                   "terminal shows");
  }
  const auto code = code_.shown();
  if (!code_.take(pairing.code)) {
    if (code_.shown() != code) {
      news_.push_back("many wrong codes were tried, so that one counts no more");
    }
    return refusal(409,
                   "that is not the code that the terminal shows now; each is good for one "
                   "phone");
  }
  const auto token = phones_.admit(who, first_id_, place_.now());
  news_.push_back(fmt::format("{} is paired", who));
  auto answer = json_answer(200, {{"who", who}});
  answer.headers.emplace_back("Set-Cookie", cookie(token, true));
  return answer;
}

// A deed was done when it was tapped, so that what was tapped first stays first, however long each
// was on its way. What comes at once is also written then: it is done now, as on the terminal.
Answer Desk::deed(const Asked& asked, const std::string& who) {
  const auto deed =
      asked.path == kPhotographPath ? read_photograph(asked.body) : read_deed(asked.body);
  logbook::Writer writer;
  writer.by = who;
  writer.device = place_.device();
  writer.now = place_.now();
  const auto tapped = record::Moment(std::chrono::milliseconds(deed.at));
  writer.done_at = deed.at == 0 ? writer.now : std::min(tapped, writer.now);
  if (writer.now - writer.done_at < kAsGoodAsNow) writer.now = writer.done_at;
  auto logbook = open_to_write();
  same_.check(logbook);
  auto taken = take(deed, logbook, writer);
  same_.check(logbook);
  taken["last_line"] = logbook.last_line();
  return json_answer(200, taken);
}

// What has this SHA-256 is never another picture, so that a browser keeps it.
Answer Desk::picture(const std::string& sha256) {
  const auto logbook = open_to_read();
  same_.check(logbook);
  const auto shown = logbook.photograph_kept_as(sha256);
  if (!shown) return refusal(404, "there is no such photograph here");
  Answer answer;
  answer.type = record::media_type_of(shown->content.format);
  answer.body = logbook.bytes_of(shown->content);
  answer.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  return answer;
}

Answer Desk::view(const Asked& asked, const std::string& who) {
  const auto logbook = open_to_read();
  same_.check(logbook);
  const auto now = place_.now();
  const auto last_line = logbook.last_line();
  // The number of the line is read before what is shown: who has seen it asks again for the next.
  const auto told = [&](ordered_json document) {
    document["who"] = who;
    document["last_line"] = last_line;
    document["now"] = now.time_since_epoch().count();
    return json_answer(200, document);
  };
  if (asked.path == "/api/line") return told(ordered_json::object());
  if (asked.path == "/api/home") return told(home_view(logbook, now));
  if (asked.path == "/api/teardown") return told(teardown_view(logbook, now, asked.query));
  if (asked.path == "/api/tighten") return told(tighten_view(logbook, now, asked.query));
  if (asked.path == "/api/stripe") return told(stripe_view(logbook, now));
  if (asked.path == "/api/photographs") return told(photographs_view(logbook, now, asked.query));
  if (asked.path == "/api/show") return told(look_up_view(logbook, now, asked.query));
  return refusal(404, "there is nothing of that name here");
}

}  // namespace phone
