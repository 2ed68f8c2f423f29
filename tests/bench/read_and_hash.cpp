// The least that a check of every leaf costs: bench_read_and_hash BOOK.db reads all leaves in the
// order of the book with SQLite, hashes each with SHA-256, and prints how many bytes it saw, as
// one line of JSON with the seconds it took.
#include <openssl/evp.h>
#include <sqlite3.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <memory>

namespace {

[[noreturn]] void give_up(const char* what) {
  std::cerr << "bench_read_and_hash: " << what << "\n";
  std::exit(EXIT_FAILURE);  // NOLINT(concurrency-mt-unsafe): there is one thread
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) give_up("usage: bench_read_and_hash BOOK.db");
  const auto start = std::chrono::steady_clock::now();
  sqlite3* database = nullptr;
  if (sqlite3_open_v2(argv[1], &database, SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX, nullptr) !=
      SQLITE_OK) {
    give_up("the book cannot be opened");
  }
  sqlite3_stmt* query = nullptr;
  if (sqlite3_prepare_v2(database, "SELECT leaf FROM entry ORDER BY seq", -1, &query, nullptr) !=
      SQLITE_OK) {
    give_up(sqlite3_errmsg(database));
  }
  const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(),
                                                                        EVP_MD_CTX_free);
  unsigned long long rows = 0;
  unsigned long long bytes = 0;
  unsigned sum = 0;  // of the hashes' first bytes, so that none is left out as unused
  int result = 0;
  while ((result = sqlite3_step(query)) == SQLITE_ROW) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> hash{};
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(query, 0));
    EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr);
    EVP_DigestUpdate(context.get(), sqlite3_column_blob(query, 0), size);
    if (EVP_DigestFinal_ex(context.get(), hash.data(), nullptr) != 1) give_up("no SHA-256");
    rows += 1;
    bytes += size;
    sum += hash[0];
  }
  if (result != SQLITE_DONE) give_up(sqlite3_errmsg(database));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  std::cout << "{\"rows\":" << rows << ",\"bytes\":" << bytes << ",\"sum\":" << sum
            << ",\"seconds\":" << took.count() << "}\n";
  sqlite3_finalize(query);
  sqlite3_close(database);
}
