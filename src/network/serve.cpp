#include "network/serve.h"

#include <fmt/format.h>
#include <pthread.h>

#include <chrono>
#include <csignal>
#include <ctime>
#include <nlohmann/json.hpp>

#include "failure/exit_code.h"
#include "failure/failure.h"
#include "phone/serving.h"
#include "phone/terminal_code.h"
#include "record/span_of_time.h"
#include "screen/answer_format.h"
#include "screen/json_text.h"
#include "terminal/session.h"
#include "words/text.h"

namespace network {
namespace {

// Ctrl-C, a closed terminal and the end of the machine: what they ask for is waited for here, and
// no thread that answers is struck by it.
class EndAsked {
 public:
  EndAsked() {
    sigemptyset(&signals_);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&signals_, signal);
    ::pthread_sigmask(SIG_BLOCK, &signals_, &before_);
  }
  ~EndAsked() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  EndAsked(const EndAsked&) = delete;
  EndAsked& operator=(const EndAsked&) = delete;

  // Waits a moment; true where it is asked for.
  [[nodiscard]] bool comes() const {
    const timespec moment{0, 200'000'000};
    return ::sigtimedwait(&signals_, nullptr, &moment) > 0;
  }

 private:
  sigset_t signals_{};
  sigset_t before_{};
};

void tell_code(phone::Serving& serving, const terminal::Session& session) {
  const auto& page = session.prose_page();
  const auto code = serving.desk().code();
  // Behind the number sign, which a browser keeps to itself.
  session.out() << phone::terminal_code(
                       fmt::format("{}#pair={}", serving.addresses().front(), code),
                       session.large_letters() == screen::LargeLetters::Blocks)
                << words::wrapped(fmt::format("code for one phone: {}", code), page.width, "",
                                  "  ");
}

void tell_addresses(phone::Serving& serving, const cli::ServeCommandOptions& options,
                    const terminal::Session& session) {
  const auto& page = session.prose_page();
  for (const auto& address : serving.addresses()) session.out() << address << '\n';
  if (const auto& certificate = serving.certificate()) {
    session.out() << words::wrapped(
        "the certificate's fingerprint, which the phone shows before it "
        "is trusted (SHA-256): " +
            certificate->fingerprint,
        page.width, "", "  ");
  }
  if (!options.lan) {
    session.remark(
        "only this machine is answered; with --lan whoever is in its network is, and "
        "each phone is paired first");
  } else if (!options.tls) {
    session.remark(
        "what goes between phone and machine can be read by who listens in this network; "
        "--tls makes it private (help phone)");
  }
}

int list_phones(const phone::Phones& phones, const std::string& logbook,
                const terminal::Session& session) {
  const auto paired = phones.of(logbook);
  if (session.json()) {
    auto rows = nlohmann::ordered_json::array();
    for (const auto& each : paired) {
      rows.push_back({{"who", each.who}, {"paired_at", each.paired_at}});
    }
    session.out() << screen::json_text(screen::kPhonesFormat, {{"phones", std::move(rows)}});
    return failure::kDone;
  }
  if (paired.empty()) session.out() << "no phone is paired with this logbook\n";
  for (const auto& each : paired) {
    session.out() << fmt::format("{}, paired {}\n", each.who,
                                 record::write_local(record::read_utc(each.paired_at)));
  }
  return failure::kDone;
}

int forget_phones(const phone::Phones& phones, const std::string& who, const std::string& logbook,
                  const terminal::Session& session) {
  const auto forgotten = phones.forget(who, logbook);
  if (forgotten == 0) {
    throw failure::Refusal(
        fmt::format("no phone of {} is paired with this logbook; serve --phones lists them", who));
  }
  if (session.json()) {
    session.out() << screen::json_text(screen::kPhonesForgottenFormat,
                                       {{"who", who}, {"forgotten", forgotten}});
    return failure::kDone;
  }
  session.out() << fmt::format("{} of {} forgotten; it has to be paired anew\n",
                               words::counted(forgotten, "phone"), who);
  return failure::kDone;
}

}  // namespace

int serve(const cli::ServeCommandOptions& options, const terminal::Session& session) {
  if (session.json() && !options.phones && options.forget.empty()) {
    throw failure::UsageError(
        "serve goes on until it is ended and answers nothing as JSON; serve --phones and serve "
        "--forget do");
  }
  phone::Place place;
  place.logbook = session.logbook_path();
  place.folder = session.data_folder();
  place.now = [&session] { return session.now(); };
  // Who stands in the lines is asked when a phone is paired; which machine wrote them is here.
  place.device = [device = session.device()] { return device; };
  const phone::Phones paired(place.folder);
  const auto logbook = session.open_to_read().first_id();
  if (options.phones) return list_phones(paired, logbook, session);
  if (!options.forget.empty()) return forget_phones(paired, options.forget, logbook, session);

  using Clock = std::chrono::steady_clock;
  auto last = Clock::time_point::max();
  if (!options.most.empty()) last = Clock::now() + record::read_span_of_time(options.most).seconds;
  const EndAsked end;
  phone::Serving serving(std::move(place),
                         {.lan = options.lan, .tls = options.tls, .port = options.port});
  tell_addresses(serving, options, session);
  tell_code(serving, session);
  session.out() << "Ctrl-C ends it\n" << std::flush;
  while (!end.comes() && Clock::now() < last) {
    const auto news = serving.desk().take_news();
    for (const auto& says : news) session.out() << says << '\n';
    if (!news.empty()) tell_code(serving, session);
    session.out() << std::flush;
  }
  if (const auto lost = serving.desk().what_is_lost()) {
    session.out() << "ended\n";
    session.remark(*lost);
    return failure::kLogbookTrouble;
  }
  session.out() << "ended; all that was tapped and answered is in the logbook\n";
  return failure::kDone;
}

}  // namespace network
