#include "fleet/server_address.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <libpq-fe.h>

#include <array>
#include <cstdlib>
#include <map>
#include <memory>
#include <vector>

#include "quantity/number_text.h"

namespace fleet {
namespace {

using failure::UsageError;
using Options = std::map<std::string, std::string>;

struct FreeOptions {
  void operator()(PQconninfoOption* options) const { PQconninfoFree(options); }
};
using LibpqOptions = std::unique_ptr<PQconninfoOption, FreeOptions>;

Options given(const LibpqOptions& options) {
  Options given;
  if (!options) return given;
  for (const auto* each = options.get(); each->keyword != nullptr; ++each) {
    if (each->val != nullptr && *each->val != '\0') given.emplace(each->keyword, each->val);
  }
  return given;
}

Options typed_options(const NamedServer& server) {
  char* why = nullptr;
  const LibpqOptions parsed(PQconninfoParse(server.address.c_str(), &why));
  PQfreemem(why);  // it may repeat what was typed
  if (!parsed) {
    throw UsageError(
        fmt::format("{}: that is no address of a PostgreSQL server; expected such as "
                    "postgresql://name@server/database, or postgresql:///database on this machine",
                    server.option));
  }
  return given(parsed);
}

// With what environment, service file and libpq itself add.
Options completed(const Options& typed) {
  // Where libpq looks for the name of a service that an address names.
  if (const auto service = typed.find("service"); service != typed.end()) {
    ::setenv("PGSERVICE", service->second.c_str(), 1);
  }
  auto whole = given(LibpqOptions(PQconndefaults()));
  for (const auto& [name, value] : typed) whole[name] = value;
  return whole;
}

std::vector<std::string> listed(const std::string& text) {
  std::vector<std::string> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const auto end = std::min(text.find(',', begin), text.size());
    parts.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

// An address of 127.0.0.0/8, or of ::1; a name that begins with such figures is somebody else's.
bool is_loopback(const std::string& host) {
  in_addr address{};
  if (::inet_pton(AF_INET, host.c_str(), &address) == 1) {
    constexpr int kAllButTheNetwork = 24;  // bits
    return ntohl(address.s_addr) >> kAllButTheNetwork == IN_LOOPBACKNET;
  }
  return host == "::1";
}

// A socket in the file system, or this machine by its own address.
bool is_this_machine(const std::string& host) {
  return host.empty() || host.front() == '/' || host.front() == '@' || host == "localhost" ||
         is_loopback(host);
}

bool stays_here(const Options& options) {
  for (const auto* name : {"hostaddr", "host"}) {
    const auto named = options.find(name);
    if (named == options.end()) continue;
    for (const auto& host : listed(named->second)) {
      if (!is_this_machine(host)) return false;
    }
    return true;  // an address counts before a name
  }
  return true;
}

std::string value_of(const Options& options, const std::string& name) {
  const auto found = options.find(name);
  return found == options.end() ? std::string() : found->second;
}

std::string written(const Options& options) {
  std::string text;
  for (const auto& [name, value] : options) {
    text += name + "='";
    for (const char c : value) {
      if (c == '\'' || c == '\\') text += '\\';
      text += c;
    }
    text += "' ";
  }
  return text;
}

}  // namespace

std::string connection_options(const NamedServer& server) {
  auto typed = typed_options(server);
  if (typed.contains("password") || typed.contains("sslpassword")) {
    throw UsageError(
        fmt::format("{}: a password in the address is seen by whoever lists the programs that run, "
                    "and stays in "
                    "the history of the shell; so it was not used, and is best changed. Keep it in "
                    "~/.pgpass or "
                    "a file named by PGPASSFILE, or the whole address in a service file: {} "
                    "\"postgresql://?service=NAME\"",
                    server.option, server.option));
  }
  const auto whole = completed(typed);
  if (!stays_here(whole) && server.unencrypted == Unencrypted::Refused) {
    const auto mode = value_of(whole, "sslmode");
    if (mode == "disable" || mode == "allow") {
      throw UsageError(fmt::format(
          "{}: sslmode={} lets everybody on the way to {} read along; leave it out, or say "
          "--unencrypted where the way is safe otherwise",
          server.option, mode, quantity::quoted(value_of(whole, "host"))));
    }
    if (mode.empty() || mode == "prefer") typed["sslmode"] = "require";
  }
  if (!whole.contains("connect_timeout")) typed["connect_timeout"] = "10";
  typed["application_name"] = "boltwitness";
  typed["client_encoding"] = "UTF8";
  return written(typed);
}

}  // namespace fleet
