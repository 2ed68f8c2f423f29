#include "http/tls_context.h"

#include <Poco/Net/Context.h>
#include <Poco/Net/NetSSL.h>
#include <Poco/Net/SecureServerSocket.h>
#include <openssl/ssl.h>
#include <openssl/x509.h>

#include <memory>

namespace benchwarden::http {
namespace {

namespace net = Poco::Net;

struct StackRelease {
  void operator()(STACK_OF(X509) * chain) const { sk_X509_free(chain); }  // not what is in it
};

/// Called at each handshake, in the thread of its connection. The connection takes references of
/// its own, so that a certificate put in place meanwhile ends none.
int show_current(SSL* connection, void* certificate) {
  const auto current = static_cast<const ServingCertificate*>(certificate)->current();
  const std::unique_ptr<STACK_OF(X509), StackRelease> chain(sk_X509_new_null());
  for (const CertificateHandle& issuer : current->chain) {
    sk_X509_push(chain.get(), issuer.get());
  }
  return SSL_use_cert_and_key(connection, current->certificate.get(), current->key.get(),
                              chain.get(), 1);
}

net::Context::Ptr make_context(const ServingCertificate& certificate) {
  net::initializeSSL();
  net::Context::Params params;
  params.verificationMode = net::Context::VERIFY_NONE;  // of clients: people sign in by PIN
  params.loadDefaultCAs = false;
  params.cipherList = "ECDHE+AESGCM:ECDHE+CHACHA20";
  net::Context::Ptr context(
      std::make_unique<net::Context>(net::Context::TLS_SERVER_USE, params).release());
  context->requireMinimumProtocol(net::Context::PROTO_TLSV1_2);
  context->preferServerCiphers();
  // Bodies are framed by their length, so that an end without farewell hides nothing; and a body
  // that the guard stopped from arriving can still be answered.
  SSL_CTX_set_options(context->sslContext(), SSL_OP_IGNORE_UNEXPECTED_EOF);
  SSL_CTX_set_cert_cb(context->sslContext(), show_current,
                      const_cast<ServingCertificate*>(&certificate));  // NOLINT(*-const-cast)
  return context;
}

}  // namespace

net::ServerSocket tls_server_socket(const ServingCertificate& certificate) {
  return net::SecureServerSocket(make_context(certificate));
}

}  // namespace benchwarden::http
