#include "http/openssl_handles.h"

#include <openssl/asn1.h>
#include <openssl/bio.h>
#include <openssl/bn.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/x509.h>

namespace benchwarden::http {

void OpensslRelease::operator()(asn1_string_st* time) const { ASN1_STRING_free(time); }
void OpensslRelease::operator()(bio_st* bytes) const { BIO_free(bytes); }
void OpensslRelease::operator()(bignum_st* number) const { BN_free(number); }
void OpensslRelease::operator()(evp_pkey_st* key) const { EVP_PKEY_free(key); }
void OpensslRelease::operator()(x509_st* certificate) const { X509_free(certificate); }
void OpensslRelease::operator()(x509_store_st* store) const { X509_STORE_free(store); }
void OpensslRelease::operator()(x509_store_ctx_st* context) const { X509_STORE_CTX_free(context); }
void OpensslRelease::operator()(X509_extension_st* extension) const {
  X509_EXTENSION_free(extension);
}

std::string openssl_reason() {
  const unsigned long code = ERR_peek_last_error();
  const char* reason = code == 0 ? nullptr : ERR_reason_error_string(code);
  std::string text = reason == nullptr ? "no reason given" : reason;
  ERR_clear_error();
  return text;
}

}  // namespace benchwarden::http
