#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

namespace benchwarden::http {

/// What a device of a workshop does: trusts one authority, connects, asks.
class TlsClient {
 public:
  struct Settings {
    std::string authority_pem;
    std::string host = "shop.local";  ///< the name or address the certificate has to be for
    int version = 0;                  ///< of the library's TLS…_VERSION; 0: any
  };

  TlsClient(std::uint16_t port, const Settings& settings);
  ~TlsClient();
  TlsClient(const TlsClient&) = delete;
  TlsClient& operator=(const TlsClient&) = delete;

  /// Whether the certificate is taken and both agree on how to speak.
  [[nodiscard]] bool shake_hands();
  /// SHA-256 of the certificate the server showed.
  [[nodiscard]] std::string fingerprint() const;
  [[nodiscard]] bool send(const std::string& bytes);
  /// Everything until the other end closes; of a keep-alive answer, until `patience` is over.
  [[nodiscard]] std::string read(std::chrono::milliseconds patience = std::chrono::seconds(8));

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace benchwarden::http
