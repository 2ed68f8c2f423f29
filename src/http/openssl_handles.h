#pragma once

#include <memory>
#include <string>

// The library's own types stay unknown here: its headers are included where it is called.
struct asn1_string_st;
struct bio_st;
struct bignum_st;
struct evp_pkey_st;
struct x509_st;
struct x509_store_st;
struct x509_store_ctx_st;
struct X509_extension_st;

namespace benchwarden::http {

/// Gives back what the library handed out.
struct OpensslRelease {
  void operator()(asn1_string_st* time) const;
  void operator()(bio_st* bytes) const;
  void operator()(bignum_st* number) const;
  void operator()(evp_pkey_st* key) const;
  void operator()(x509_st* certificate) const;
  void operator()(x509_store_st* store) const;
  void operator()(x509_store_ctx_st* context) const;
  void operator()(X509_extension_st* extension) const;
};
template <class T>
using OpensslHandle = std::unique_ptr<T, OpensslRelease>;
using CertificateHandle = OpensslHandle<x509_st>;
using KeyHandle = OpensslHandle<evp_pkey_st>;

/// What the library says of its last failure in this thread; its list of failures is emptied.
std::string openssl_reason();

}  // namespace benchwarden::http
