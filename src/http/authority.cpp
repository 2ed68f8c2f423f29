#include "http/authority.h"

#include <openssl/bn.h>
#include <openssl/evp.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "http/host_list.h"
#include "http/network_names.h"

namespace benchwarden::http {
namespace {

/// A device whose clock is slow is to take a certificate that was just made.
constexpr std::int64_t kSlowClockMs = base::kDayMs;

struct Extension {
  int id;
  std::string value;
};

base::Error failed(const std::string& what) {
  return {base::ErrorCode::kInternal, what + ": " + openssl_reason()};
}

bool set_time(X509* certificate, int (*take)(X509*, const ASN1_TIME*), base::Instant time) {
  const OpensslHandle<asn1_string_st> made(
      ASN1_TIME_set(nullptr, static_cast<time_t>(time.ms / 1000)));
  return made && take(certificate, made.get()) == 1;
}

bool set_serial(X509* certificate) {
  const OpensslHandle<bignum_st> number(BN_new());
  return number && BN_rand(number.get(), 127, BN_RAND_TOP_ONE, BN_RAND_BOTTOM_ANY) == 1 &&
         BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate)) != nullptr;
}

bool name_part(X509_NAME* name, const char* field, const std::string& value) {
  return X509_NAME_add_entry_by_txt(name, field, MBSTRING_UTF8,
                                    reinterpret_cast<const unsigned char*>(value.data()),
                                    static_cast<int>(value.size()), -1, 0) == 1;
}

bool add_extensions(X509* certificate, X509* issuer, const std::vector<Extension>& extensions) {
  X509V3_CTX context{};
  X509V3_set_ctx(&context, issuer, certificate, nullptr, nullptr, 0);
  return std::all_of(extensions.begin(), extensions.end(), [&](const Extension& one) {
    const OpensslHandle<X509_extension_st> made(
        X509V3_EXT_conf_nid(nullptr, &context, one.id, one.value.c_str()));
    return made && X509_add_ext(certificate, made.get(), -1) == 1;
  });
}

struct Wanted {
  std::string organization;
  std::string name;
  base::Instant begins;
  base::Instant ends;
  std::vector<Extension> extensions;
};

/// Signed by `authority`, or by itself where there is none.
base::Result<CertifiedKey> certify(const Wanted& wanted, const CertifiedKey* authority) {
  CertifiedKey made;
  made.key.reset(EVP_EC_gen("P-256"));
  made.certificate.reset(X509_new());
  X509* certificate = made.certificate.get();
  if (!made.key || certificate == nullptr) return failed("no key can be made");
  X509* issuer = authority == nullptr ? certificate : authority->certificate.get();
  EVP_PKEY* signer = authority == nullptr ? made.key.get() : authority->key.get();
  X509_NAME* subject = X509_get_subject_name(certificate);
  const bool is_made =
      X509_set_version(certificate, X509_VERSION_3) == 1 && set_serial(certificate) &&
      set_time(certificate, X509_set1_notBefore, wanted.begins) &&
      set_time(certificate, X509_set1_notAfter, wanted.ends) &&
      name_part(subject, "O", wanted.organization) && name_part(subject, "CN", wanted.name) &&
      X509_set_issuer_name(certificate, X509_get_subject_name(issuer)) == 1 &&
      X509_set_pubkey(certificate, made.key.get()) == 1 &&
      add_extensions(certificate, issuer, wanted.extensions) &&
      X509_sign(certificate, signer, EVP_sha256()) > 0;
  if (!is_made) return failed("no certificate can be made for " + wanted.name);
  return made;
}

std::string constraints_for(const std::string& name) {
  std::vector<std::string> parts{"critical", "permitted;DNS:" + name, "permitted;DNS:localhost"};
  for (const std::string& range : private_ranges()) parts.push_back("permitted;IP:" + range);
  return base::join(parts, ",");
}

std::string alternative_names(const std::vector<std::string>& names) {
  std::vector<std::string> parts;
  for (const std::string& name : names) {
    parts.push_back((is_address_host(host_of_address(name)) ? "IP:" : "DNS:") + name);
  }
  return base::join(parts, ",");
}

}  // namespace

base::Result<CertifiedKey> make_authority(const std::string& name, base::Instant now) {
  Wanted wanted;
  wanted.organization = "Benchwarden authority";
  wanted.name = name;
  wanted.begins = {now.ms - kSlowClockMs};
  wanted.ends = {wanted.begins.ms + kAuthorityDays * base::kDayMs};
  wanted.extensions = {{NID_basic_constraints, "critical,CA:TRUE,pathlen:0"},
                       {NID_key_usage, "critical,keyCertSign,cRLSign"},
                       {NID_name_constraints, constraints_for(name)},
                       {NID_subject_key_identifier, "hash"}};
  return certify(wanted, nullptr);
}

std::string name_of_authority(const CertifiedKey& authority) {
  std::array<char, kNetworkNameLengthMax + 1> name{};
  X509_NAME_get_text_by_NID(X509_get_subject_name(authority.certificate.get()), NID_commonName,
                            name.data(), static_cast<int>(name.size()));
  return name.data();
}

base::Result<CertifiedKey> issue(const CertifiedKey& authority,
                                 const std::vector<std::string>& names, base::Instant now) {
  Wanted wanted;
  wanted.organization = "Benchwarden";
  wanted.name = names.front();
  // Our own clock may be slow, too: no certificate begins before that which vouches for it.
  wanted.begins = std::max(base::Instant{now.ms - kSlowClockMs}, begins_at(authority));
  wanted.ends =
      std::min(base::Instant{wanted.begins.ms + kServerDays * base::kDayMs}, ends_at(authority));
  wanted.extensions = {{NID_basic_constraints, "critical,CA:FALSE"},
                       {NID_key_usage, "critical,digitalSignature"},
                       {NID_ext_key_usage, "serverAuth"},
                       {NID_subject_alt_name, alternative_names(names)},
                       {NID_subject_key_identifier, "hash"},
                       {NID_authority_key_identifier, "keyid:always"}};
  return certify(wanted, &authority);
}

base::Status<> verify_issued(const CertifiedKey& authority, const CertifiedKey& server,
                             base::Instant now) {
  const OpensslHandle<x509_store_st> trusted(X509_STORE_new());
  const OpensslHandle<x509_store_ctx_st> context(X509_STORE_CTX_new());
  if (!trusted || !context ||
      X509_STORE_add_cert(trusted.get(), authority.certificate.get()) != 1 ||
      X509_STORE_CTX_init(context.get(), trusted.get(), server.certificate.get(), nullptr) != 1) {
    return failed("no certificate can be verified");
  }
  X509_STORE_CTX_set_purpose(context.get(), X509_PURPOSE_SSL_SERVER);
  X509_STORE_CTX_set_time(context.get(), 0, static_cast<time_t>(now.ms / 1000));
  if (X509_verify_cert(context.get()) == 1) return base::Done{};
  return base::Error{base::ErrorCode::kDamaged,
                     X509_verify_cert_error_string(X509_STORE_CTX_get_error(context.get()))};
}

}  // namespace benchwarden::http
