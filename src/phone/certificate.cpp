#include "phone/certificate.h"

#include <fmt/format.h>
#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <array>
#include <cerrno>
#include <memory>
#include <system_error>

#include "failure/failure.h"
#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "logbook/plain_file.h"

namespace phone {
namespace {

namespace fs = std::filesystem;

constexpr long kLifeInSeconds = 10L * 365 * 24 * 3600;

template <auto Free>
struct FreeBy {
  template <class Object>
  void operator()(Object* object) const {
    Free(object);
  }
};
using Key = std::unique_ptr<EVP_PKEY, FreeBy<EVP_PKEY_free>>;
using X509Certificate = std::unique_ptr<X509, FreeBy<X509_free>>;
using Memory = std::unique_ptr<BIO, FreeBy<BIO_free>>;

[[noreturn]] void refuse_certificate(const fs::path& file, std::string_view why) {
  throw failure::OutputLost(fmt::format("the certificate {}: {}", file.string(), why));
}

std::string text_in(BIO& memory) {
  char* data = nullptr;
  const long size = BIO_get_mem_data(&memory, &data);
  return {data, static_cast<std::size_t>(size)};
}

// Its name is no machine's: it is told by its fingerprint.
X509Certificate certificate_for(EVP_PKEY& key) {
  X509Certificate certificate(::X509_new());
  if (!certificate) return nullptr;
  auto* made = certificate.get();
  std::array<unsigned char, 16> serial{};
  if (::RAND_bytes(serial.data(), static_cast<int>(serial.size())) != 1) return nullptr;
  serial[0] &= 0x7FU;
  const std::unique_ptr<BIGNUM, FreeBy<BN_free>> number(
      ::BN_bin2bn(serial.data(), static_cast<int>(serial.size()), nullptr));
  ::BN_to_ASN1_INTEGER(number.get(), ::X509_get_serialNumber(made));
  ::X509_set_version(made, X509_VERSION_3);
  ::X509_gmtime_adj(::X509_getm_notBefore(made), -24L * 3600);
  ::X509_gmtime_adj(::X509_getm_notAfter(made), kLifeInSeconds);
  ::X509_set_pubkey(made, &key);
  auto* name = ::X509_get_subject_name(made);
  ::X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_ASC,
                               reinterpret_cast<const unsigned char*>("boltwitness"), -1, -1, 0);
  ::X509_set_issuer_name(made, name);
  for (const auto& [id, value] : {std::pair{NID_subject_alt_name, "DNS:localhost,IP:127.0.0.1"},
                                  std::pair{NID_basic_constraints, "critical,CA:FALSE"},
                                  std::pair{NID_ext_key_usage, "serverAuth"}}) {
    auto* extension = ::X509V3_EXT_conf_nid(nullptr, nullptr, id, value);
    if (extension == nullptr) return nullptr;
    ::X509_add_ext(made, extension, -1);
    ::X509_EXTENSION_free(extension);
  }
  return ::X509_sign(made, &key, ::EVP_sha256()) == 0 ? nullptr : std::move(certificate);
}

void write_secret(const fs::path& file, const std::string& text) {
  const logbook::DraftFile draft(file.parent_path(), 0600U);
  if (!draft.fill(text)) {
    refuse_certificate(
        file, fmt::format("it cannot be written: {}; check the folder and the room on the disk",
                          logbook::why_not_written(errno)));
  }
  draft.replace(file);
}

void make_certificate(const Certificate& names) {
  const Key key(::EVP_EC_gen("P-256"));
  const auto certificate = key ? certificate_for(*key) : nullptr;
  const Memory certificate_text(::BIO_new(::BIO_s_mem()));
  const Memory key_text(::BIO_new(::BIO_s_mem()));
  if (!certificate || !certificate_text || !key_text ||
      ::PEM_write_bio_X509(certificate_text.get(), certificate.get()) != 1 ||
      ::PEM_write_bio_PrivateKey(key_text.get(), key.get(), nullptr, nullptr, 0, nullptr,
                                 nullptr) != 1) {
    refuse_certificate(names.file, "it cannot be made");
  }
  std::error_code problem;
  fs::create_directories(names.file.parent_path(), problem);
  write_secret(names.key_file, text_in(*key_text));
  write_secret(names.file, text_in(*certificate_text));
}

std::string fingerprint_of(const fs::path& file) {
  constexpr std::size_t kMostBytes = 65536;
  const auto text = logbook::begin_of_plain_file(file, kMostBytes);
  const Memory memory(::BIO_new_mem_buf(text.data(), static_cast<int>(text.size())));
  const X509Certificate certificate(::PEM_read_bio_X509(memory.get(), nullptr, nullptr, nullptr));
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned size = 0;
  if (!certificate || ::X509_digest(certificate.get(), ::EVP_sha256(), bytes.data(), &size) != 1) {
    refuse_certificate(file, "it is none; move it and its key away, and new ones are made");
  }
  std::string fingerprint;
  for (unsigned i = 0; i < size; ++i) {
    fingerprint += fmt::format("{}{:02X}", i == 0 ? "" : ":", bytes[i]);
  }
  return fingerprint;
}

}  // namespace

Certificate own_certificate(const fs::path& folder) {
  Certificate own{folder / "serve-certificate.pem", folder / "serve-key.pem", {}};
  std::error_code problem;
  if (!fs::exists(own.file, problem) || !fs::exists(own.key_file, problem)) make_certificate(own);
  own.fingerprint = fingerprint_of(own.file);
  return own;
}

}  // namespace phone
