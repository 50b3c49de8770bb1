#include "cli/sign.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "logbook/digest.h"
#include "logbook/signature.h"
#include "screen/sign_answer.h"
#include "terminal/key_file.h"
#include "terminal/session.h"

namespace cli {

void declare_sign(CLI::App& command, Pending& pending) {
  command.callback([&pending] {
    pending.run = [](const terminal::Session& session) { return run_sign(session); };
  });
}

int run_sign(const terminal::Session& session) {
  const auto writer = session.writer();
  auto logbook = session.open_to_write();
  std::optional<terminal::PersonsKey> persons;
  const auto ends = logbook::sign_to_the_end(logbook, writer.by, writer.now, [&] {
    persons = terminal::persons_key(session.data_folder());
    return persons->key;
  });
  const screen::SignatureMade made{ends, writer.by, logbook::sha256(persons->key.public_key())};
  session.out() << (session.json() ? screen::signature_json(made)
                                   : screen::signature_text(made, session.prose_page()));
  if (persons->is_new) {
    session.remark(fmt::format(
        "{} was made for this: whoever has it signs as you. Copy it to where nobody else comes, "
        "and give the fingerprint of the key to those who are to know it, not beside the logbook.",
        persons->file.string()));
  }
  return failure::kDone;
}

}  // namespace cli
