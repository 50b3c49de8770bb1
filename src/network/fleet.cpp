#include "network/fleet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>

#include "act/lookup.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "fleet/store.h"
#include "logbook/verification.h"
#include "quantity/number_text.h"
#include "screen/fleet_answer.h"
#include "terminal/progress_bar.h"
#include "terminal/session.h"
#include "words/text.h"

namespace network {
namespace {

constexpr const char* kFleetVersion = BOLTWITNESS_VERSION;

fleet::NamedServer server_named(std::string_view option, const std::string& address,
                                const cli::FleetOptions& options) {
  if (address.empty()) {
    throw failure::UsageError(
        fmt::format("{} is missing: the server, such as postgresql://name@server/database, or "
                    "postgresql:///database on this machine",
                    option));
  }
  return {option, address,
          options.unencrypted ? fleet::Unencrypted::Allowed : fleet::Unencrypted::Refused};
}

// How far all the logbooks have come, in hundredths of one.
class FleetProgress {
 public:
  FleetProgress(const terminal::Session& session, std::size_t logbooks)
      : bar_(session, "logbooks", logbooks * kOfOne) {}

  void begin() { done_ = 0; }
  void done(double share) {
    for (const auto now = static_cast<std::size_t>(share * kOfOne); done_ < now; ++done_) {
      bar_.step();
    }
  }

 private:
  static constexpr std::size_t kOfOne = 100;
  terminal::ProgressBar bar_;
  std::size_t done_ = 0;
};

// Of the time that one logbook takes, about.
constexpr double kVerified = 0.3;
constexpr double kReadFromFile = 0.5;

void refuse_unless_it_fits(const record::Verification& verified, const std::string& path) {
  const bool is_of_before_hashes = verified.is_as_written() && !verified.chain;
  if (verified.fits() || is_of_before_hashes) return;
  throw failure::Refusal(
      fmt::format("it does not fit its hashes or its layout; \"boltwitness verify --log {}\" "
                  "names what",
                  path));
}

std::string ends_of(const logbook::Logbook& logbook) {
  return fmt::format("{}", fmt::join(logbook.end_hashes(), " "));
}

std::string_view word_of(fleet::Loaded::How how) {
  switch (how) {
    case fleet::Loaded::How::New:
      return "new";
    case fleet::Loaded::How::Grown:
      return "grown";
    case fleet::Loaded::How::Anew:
      return "worked out anew";
    case fleet::Loaded::How::Older:
      break;
  }
  return "older copy";
}

screen::LoadedLogbook load_one(const std::string& file, fleet::Store& store,
                               FleetProgress& progress, const terminal::Session& session) {
  const auto path = session.reachable(file);
  // What cannot be read is refused by whoever reads it, below.
  const auto verified = logbook::verify(path, {}, session.waiting(), {}, logbook::Look::AtHashes);
  refuse_unless_it_fits(verified, file);
  progress.done(kVerified);
  const auto logbook = logbook::Logbook::open_unchanged(path, session.waiting());
  const auto ends = ends_of(logbook);
  if (store.holds(logbook.first_id(), ends)) {
    return {file, logbook.job_of_none().start.machine, "nothing new",
            static_cast<std::size_t>(logbook.last_line())};
  }
  record::WholeCopy copy;
  logbook.copy(copy);
  fleet::Source source{std::filesystem::path(path).filename().string(), std::move(copy).taken(),
                       logbook.job(), ends, session.now()};
  if (ends_of(logbook) != ends) {
    throw failure::Refusal("somebody wrote to it while it was read; load it once more");
  }
  const auto machine = source.job.start.machine;
  progress.done(kReadFromFile);
  const auto loaded = store.load(std::move(source), [&](double share) {
    progress.done(kReadFromFile + (1.0 - kReadFromFile) * share);
  });
  return {file, machine, std::string(word_of(loaded.how)), loaded.lines, loaded.new_lines};
}

const char* unencrypted_too(const cli::FleetOptions& options) {
  return options.unencrypted ? " --unencrypted" : "";
}

int run_load(const cli::FleetOptions& options, const terminal::Session& session) {
  if (!options.from.empty() || !options.machine.empty()) {
    throw failure::UsageError(
        "fleet load takes --to and logbooks; --from and --machine are of ask");
  }
  const auto store = fleet::open_to_load(server_named("--to", options.to, options), kFleetVersion);
  std::vector<screen::LoadedLogbook> logbooks;
  {
    FleetProgress progress(session, std::max<std::size_t>(options.names.size(), 1));
    for (const auto& file : options.names) {
      progress.begin();
      try {
        logbooks.push_back(load_one(file, *store, progress, session));
      } catch (const fleet::ServerError&) {
        throw;
      } catch (const failure::Failure& error) {
        logbooks.push_back({file, {}, "refused", 0, 0, error.what()});
      }
      progress.done(1.0);
    }
  }
  const auto whole = options.whole
                         ? std::string()
                         : fmt::format("fleet load --to {} LOGBOOK ...{} --whole",
                                       quantity::quoted(options.to), unencrypted_too(options));
  session.out() << (session.json() ? screen::loaded_json(logbooks)
                                   : screen::loaded_text(logbooks, whole, session.prose_page()));
  const bool is_any_refused =
      std::ranges::any_of(logbooks, [](const auto& each) { return !each.why.empty(); });
  return is_any_refused ? failure::kNotInOrder : failure::kDone;
}

std::string whole_of(const cli::FleetOptions& options) {
  if (options.whole) return {};
  auto command = fmt::format("fleet ask {} --from \"{}\"", options.names.front(), options.from);
  if (!options.machine.empty()) command += fmt::format(" --machine \"{}\"", options.machine);
  return command + unencrypted_too(options) + " --whole";
}

// An answer over no logbook, or of a machine of another name, would look like one where all is
// well.
void tell_what_is_loaded(fleet::Store& store, const cli::FleetOptions& options,
                         const terminal::Session& session) {
  if (!store.machines(options.machine).empty()) return;
  const auto loaded = options.machine.empty() ? std::vector<std::string>() : store.machines({});
  if (loaded.empty()) {
    return session.remark("nothing is loaded yet: boltwitness fleet load --to ADDRESS LOGBOOK ...");
  }
  throw failure::Refusal(fmt::format(
      "no logbook of {} is loaded, but of {}{}", quantity::quoted(options.machine),
      words::counted(loaded.size(), "other machine"), act::suggestion(options.machine, loaded)));
}

int run_ask(const cli::FleetOptions& options, const terminal::Session& session) {
  if (!options.to.empty()) throw failure::UsageError("fleet ask takes --from; --to is of load");
  if (options.names.empty()) {
    session.out() << (session.json() ? screen::questions_json()
                                     : screen::questions_text(session.prose_page()));
    return failure::kDone;
  }
  if (options.names.size() > 1) {
    throw failure::UsageError(fmt::format("fleet ask takes one question; found {} as well",
                                          quantity::quoted(options.names[1])));
  }
  const auto& question = fleet::question_named(options.names.front());
  if (!options.machine.empty() && !question.of_machines) {
    throw failure::UsageError(
        fmt::format("--machine: the rows of {} are over all machines; \"boltwitness fleet ask\" "
                    "lists the others",
                    question.word));
  }
  const auto store = fleet::open_to_ask(server_named("--from", options.from, options));
  tell_what_is_loaded(*store, options, session);
  const bool is_cut = !options.whole && !session.json();
  const auto answer =
      store->ask({question, options.machine, session.done_at(),
                  is_cut ? std::optional(screen::kMostFleetRows + 1) : std::nullopt});
  session.out() << (session.json()
                        ? screen::fleet_json(question, answer)
                        : screen::fleet_text(question, answer, whole_of(options), session.page()));
  return failure::kDone;
}

}  // namespace

int ask_or_load(const cli::FleetOptions& options, const terminal::Session& session) {
  if (options.deed == "load") return run_load(options, session);
  if (options.deed == "ask" || options.deed.empty()) return run_ask(options, session);
  throw failure::UsageError(
      fmt::format("fleet {}: expected load or ask", quantity::quoted(options.deed)));
}

}  // namespace network
