// What the HTTP library alone takes: bench_fixed_bytes ANSWER.json THREADS [PEM] answers every
// request with the bytes of a file, and does nothing else. With PEM, of a key and its certificate,
// it speaks TLS as the daemon does. Prints its port, and ends when its standard input does.
#include <Poco/Net/Context.h>
#include <Poco/Net/HTTPRequestHandler.h>
#include <Poco/Net/HTTPRequestHandlerFactory.h>
#include <Poco/Net/HTTPServer.h>
#include <Poco/Net/HTTPServerResponse.h>
#include <Poco/Net/NetSSL.h>
#include <Poco/Net/SecureServerSocket.h>

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <string>

namespace {

namespace net = Poco::Net;

class FixedAnswer : public net::HTTPRequestHandler {
 public:
  explicit FixedAnswer(const std::string& bytes) : bytes_(bytes) {}
  void handleRequest(net::HTTPServerRequest& /*request*/,
                     net::HTTPServerResponse& response) override {
    response.setContentType("application/json");
    response.sendBuffer(bytes_.data(), bytes_.size());
  }

 private:
  const std::string& bytes_;
};

class FixedAnswers : public net::HTTPRequestHandlerFactory {
 public:
  explicit FixedAnswers(std::string bytes) : bytes_(std::move(bytes)) {}
  net::HTTPRequestHandler* createRequestHandler(
      const net::HTTPServerRequest& /*request*/) override {
    return std::make_unique<FixedAnswer>(bytes_).release();
  }

 private:
  std::string bytes_;
};

/// As src/http/server.cpp has them.
net::HTTPServerParams::Ptr parameters(int threads) {
  net::HTTPServerParams::Ptr parameters = new net::HTTPServerParams;
  parameters->setMaxThreads(threads);
  parameters->setMaxQueued(threads);
  parameters->setKeepAlive(true);
  parameters->setMaxKeepAliveRequests(1000);
  return parameters;
}

/// As src/http/tls_context.cpp has it.
net::ServerSocket tls_socket(const std::string& pem) {
  net::initializeSSL();
  net::Context::Params params;
  params.privateKeyFile = params.certificateFile = pem;
  params.verificationMode = net::Context::VERIFY_NONE;
  params.loadDefaultCAs = false;
  params.cipherList = "ECDHE+AESGCM:ECDHE+CHACHA20";
  net::Context::Ptr context = new net::Context(net::Context::TLS_SERVER_USE, params);
  context->requireMinimumProtocol(net::Context::PROTO_TLSV1_2);
  context->preferServerCiphers();
  return net::SecureServerSocket(context);  // NOLINT(*-slicing): a handle, as the library means it
}

}  // namespace

int main(int argc, char** argv) {
  const int threads = argc > 2 ? static_cast<int>(std::strtol(argv[2], nullptr, 10)) : 0;
  std::ifstream file(argc > 1 ? argv[1] : "", std::ios::binary);
  if (threads < 1 || !file) {
    std::cerr << "usage: bench_fixed_bytes ANSWER.json THREADS [PEM]\n";
    return EXIT_FAILURE;
  }
  const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  net::ServerSocket socket = argc > 3 ? tls_socket(argv[3]) : net::ServerSocket();
  socket.bind(net::SocketAddress("127.0.0.1", 0), true, false);
  socket.listen(64);
  Poco::ThreadPool pool(4, threads + 4);
  net::HTTPServer server(new FixedAnswers(bytes), pool, socket, parameters(threads));
  server.start();
  std::cout << socket.address().port() << std::endl;
  while (std::cin.get() != std::istream::traits_type::eof()) {
  }
  server.stopAll(true);
}
