#include "http/tls_client.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>

#include "http/certified_key.h"
#include "http/host_list.h"
#include "http/openssl_handles.h"

namespace benchwarden::http {
namespace {

int connect_to(std::uint16_t port) {
  const int descriptor = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  EXPECT_EQ(::connect(descriptor, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  return descriptor;
}

void trust(SSL_CTX* context, const std::string& pem) {
  const OpensslHandle<bio_st> bytes(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
  const CertificateHandle authority(PEM_read_bio_X509(bytes.get(), nullptr, nullptr, nullptr));
  ASSERT_TRUE(authority);
  X509_STORE_add_cert(SSL_CTX_get_cert_store(context), authority.get());
}

}  // namespace

struct TlsClient::State {
  struct Release {
    void operator()(SSL_CTX* made) const { SSL_CTX_free(made); }
    void operator()(SSL* made) const { SSL_free(made); }
  };
  std::unique_ptr<SSL_CTX, Release> context{SSL_CTX_new(TLS_client_method())};
  std::unique_ptr<SSL, Release> connection;
  int descriptor = -1;
};

TlsClient::TlsClient(std::uint16_t port, const Settings& settings)
    : state_(std::make_unique<State>()) {
  SSL_CTX* context = state_->context.get();
  trust(context, settings.authority_pem);
  SSL_CTX_set_verify(context, SSL_VERIFY_PEER, nullptr);
  // Old versions are to be refused by the server and not by this client's own caution.
  SSL_CTX_set_security_level(context, 0);
  SSL_CTX_set_cipher_list(context, "ALL:@SECLEVEL=0");
  SSL_CTX_set_min_proto_version(context, settings.version);
  SSL_CTX_set_max_proto_version(context, settings.version);
  state_->descriptor = connect_to(port);
  state_->connection.reset(SSL_new(context));
  SSL* connection = state_->connection.get();
  SSL_set_fd(connection, state_->descriptor);
  if (is_address_host(settings.host)) {
    X509_VERIFY_PARAM_set1_ip_asc(SSL_get0_param(connection), settings.host.c_str());
  } else {
    SSL_set1_host(connection, settings.host.c_str());
  }
}

TlsClient::~TlsClient() { ::close(state_->descriptor); }

bool TlsClient::shake_hands() {
  const bool is_agreed = SSL_connect(state_->connection.get()) == 1;
  openssl_reason();
  return is_agreed;
}

std::string TlsClient::fingerprint() const {
  CertifiedKey shown;
  shown.certificate.reset(SSL_get1_peer_certificate(state_->connection.get()));
  return fingerprint_of(shown);
}

bool TlsClient::send(const std::string& bytes) {
  return SSL_write(state_->connection.get(), bytes.data(), static_cast<int>(bytes.size())) > 0;
}

std::string TlsClient::read(std::chrono::milliseconds patience) {
  timeval limit{};
  limit.tv_sec = patience.count() / 1000;
  limit.tv_usec = patience.count() % 1000 * 1000;
  ::setsockopt(state_->descriptor, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
  std::string bytes;
  std::array<char, 4096> part{};
  for (;;) {
    const int got = SSL_read(state_->connection.get(), part.data(), static_cast<int>(part.size()));
    if (got <= 0) break;
    bytes.append(part.data(), static_cast<std::size_t>(got));
  }
  openssl_reason();
  return bytes;
}

}  // namespace benchwarden::http
