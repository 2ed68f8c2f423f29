#include "http/certified_key.h"

#include <arpa/inet.h>
#include <openssl/pem.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>
#include <ctime>

#include "base/sha256.h"

namespace benchwarden::http {
namespace {

using BioHandle = OpensslHandle<bio_st>;

BioHandle readable(std::string_view bytes) {
  return BioHandle(BIO_new_mem_buf(bytes.data(), static_cast<int>(bytes.size())));
}

std::string written(const BioHandle& bio) {
  char* bytes = nullptr;
  const long size = BIO_get_mem_data(bio.get(), &bytes);
  return {bytes, static_cast<std::size_t>(size)};
}

/// Instead of the library's own question on the terminal.
int no_password(char*, int, int, void*) { return -1; }

base::Error unreadable(const std::string& what) { return {base::ErrorCode::kDamaged, what}; }

base::Instant instant_of(const asn1_string_st* time) {
  std::tm parts{};
  ASN1_TIME_to_tm(time, &parts);
  return {std::int64_t{timegm(&parts)} * 1000};
}

std::string address_text(const ASN1_OCTET_STRING* bytes) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  const int family = ASN1_STRING_length(bytes) == 4 ? AF_INET : AF_INET6;
  inet_ntop(family, ASN1_STRING_get0_data(bytes), text.data(), text.size());
  return text.data();
}

std::string text_of(const ASN1_STRING* text) {
  const auto* bytes = ASN1_STRING_get0_data(text);
  return {bytes, bytes + ASN1_STRING_length(text)};
}

struct NamesRelease {
  void operator()(GENERAL_NAMES* names) const { GENERAL_NAMES_free(names); }
};

}  // namespace

base::Result<CertifiedKey> read_certified_key(std::string_view certificates_pem,
                                              std::string_view key_pem) {
  CertifiedKey certified;
  const BioHandle certificates = readable(certificates_pem);
  certified.certificate.reset(PEM_read_bio_X509(certificates.get(), nullptr, no_password, nullptr));
  if (!certified.certificate) return unreadable("no certificate in PEM (" + openssl_reason() + ")");
  while (CertificateHandle issuer{
      PEM_read_bio_X509(certificates.get(), nullptr, no_password, nullptr)}) {
    certified.chain.push_back(std::move(issuer));
  }
  openssl_reason();  // the end of the text counts as a failure there
  const BioHandle key = readable(key_pem);
  certified.key.reset(PEM_read_bio_PrivateKey(key.get(), nullptr, no_password, nullptr));
  if (!certified.key) {
    return unreadable("no private key in PEM without a password (" + openssl_reason() + ")");
  }
  if (X509_check_private_key(certified.certificate.get(), certified.key.get()) != 1) {
    openssl_reason();
    return unreadable("the private key is not that of the certificate");
  }
  return certified;
}

std::string certificate_pem(const CertifiedKey& certified) {
  const BioHandle bio(BIO_new(BIO_s_mem()));
  PEM_write_bio_X509(bio.get(), certified.certificate.get());
  return written(bio);
}

base::Result<std::string> whole_pem(const CertifiedKey& certified) {
  const BioHandle bio(BIO_new(BIO_s_mem()));
  if (PEM_write_bio_PKCS8PrivateKey(bio.get(), certified.key.get(), nullptr, nullptr, 0, nullptr,
                                    nullptr) != 1) {
    return base::Error{base::ErrorCode::kInternal,
                       "the key cannot be written: " + openssl_reason()};
  }
  return written(bio) + certificate_pem(certified);
}

std::string fingerprint_of(const CertifiedKey& certified) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned size = 0;
  X509_digest(certified.certificate.get(), EVP_sha256(), digest.data(), &size);
  const std::string hex = base::to_hex({digest.data(), size});
  std::string pairs;
  for (std::size_t i = 0; i < hex.size(); ++i) {
    if (i > 0 && i % 2 == 0) pairs += ':';
    const char c = hex[i];
    pairs += c >= 'a' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return pairs;
}

std::vector<std::string> names_in(const CertifiedKey& certified) {
  const std::unique_ptr<GENERAL_NAMES, NamesRelease> names(static_cast<GENERAL_NAMES*>(
      X509_get_ext_d2i(certified.certificate.get(), NID_subject_alt_name, nullptr, nullptr)));
  std::vector<std::string> found;
  for (int i = 0; names && i < sk_GENERAL_NAME_num(names.get()); ++i) {
    const GENERAL_NAME* name = sk_GENERAL_NAME_value(names.get(), i);
    if (name->type == GEN_DNS) found.push_back(text_of(name->d.dNSName));
    if (name->type == GEN_IPADD) found.push_back(address_text(name->d.iPAddress));
  }
  std::sort(found.begin(), found.end());
  return found;
}

bool is_for_name(const CertifiedKey& certified, const std::string& name) {
  return X509_check_host(certified.certificate.get(), name.data(), name.size(), 0, nullptr) == 1;
}

base::Instant begins_at(const CertifiedKey& certified) {
  return instant_of(X509_get0_notBefore(certified.certificate.get()));
}

base::Instant ends_at(const CertifiedKey& certified) {
  return instant_of(X509_get0_notAfter(certified.certificate.get()));
}

}  // namespace benchwarden::http
