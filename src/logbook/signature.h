#pragma once

#include <functional>
#include <string>
#include <vector>

#include "logbook/logbook.h"
#include "logbook/signing_key.h"
#include "record/moment.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

// What a signature is made over: the hash of a line, and so all up to it, with who signed and when:
//
//   boltwitness signature 1
//   hash <the hash of the line>
//   by <who>
//   at <when, as write_utc writes it>
//
// each ended by a line feed.
[[nodiscard]] std::string signed_text(const std::string& hash, const std::string& by,
                                      const std::string& at);

// Whether the holder of this key made the signature over that. False too where hash, key or
// signature are none.
[[nodiscard]] bool signature_fits(const std::string& hash, const std::string& by,
                                  const std::string& at, const std::string& public_key,
                                  const std::string& signature);

// Signs the log up to its end with the key that is asked for once all else is in order, and tells
// what it signed: the last line, and where copies were merged and nothing was written since, the
// last lines of each; rising, those left out that bear a signature of this key already.
// Refusal where the logbook does not fit as verify tells, or all of them do; LogbookError where
// nothing can be written.
[[nodiscard]] std::vector<record::ChainCheck::Hashed> sign_to_the_end(
    Logbook& logbook, const std::string& by, record::Moment now,
    const std::function<SigningKey()>& key_of);

// Every signature, by rising line, held against the hash that is stored of its line, with the lines
// that it was made over.
[[nodiscard]] std::vector<record::SignatureCheck> check_signatures(SQLite::Database& database);

}  // namespace logbook
