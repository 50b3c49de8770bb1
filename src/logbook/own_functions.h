#pragma once

namespace SQLite {
class Database;
}

namespace logbook {

// Gives SQL on this connection what triggers of the schema call and SQL has not; a shell that has
// them not is refused by that alone. The schema may call them though it is not trusted: they change
// nothing, and tell nothing that was not handed to them.
//
//   sha256_of(X)           the SHA-256 of the bytes of a blob or a text, as 64 hexadecimal digits
//                          in lower case; NULL of NULL
//   signature_fits(hash, by, at, public_key, signature)
//                          1 where the holder of the key signed a line of this hash (signature.h),
//                          else 0
void add_own_functions(SQLite::Database& database);

}  // namespace logbook
