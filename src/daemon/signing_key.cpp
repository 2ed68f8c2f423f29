#include "daemon/signing_key.h"

#include <sodium.h>

#include "access/private_file.h"
#include "seal/verifier_key.h"

namespace benchwarden::daemon {
namespace {

constexpr const char* kWhatToDo =
    ": put it back from where you keep a copy of it. Where there is none, start once with "
    "--new-key: checkpoints signed so far still hold by their own verifier key, and the list of "
    "checkpoints shows the change";

base::Result<std::string> read_seed(const std::filesystem::path& file) {
  auto seed = access::read_private_file(file, seal::SigningKey::kSeedBytes);
  if (seed && seed->size() == seal::SigningKey::kSeedBytes) return seed;
  if (!seed && seed.error().code != base::ErrorCode::kInvalid) return seed;
  return base::Error{base::ErrorCode::kDamaged, file.string() + ": not 32 bytes long" + kWhatToDo};
}

base::Result<std::string> make_seed(const std::filesystem::path& file) {
  std::string fresh = seal::SigningKey::new_seed();
  const auto written = access::write_private_file(file, fresh);
  sodium_memzero(fresh.data(), fresh.size());
  if (!written) return written.error();
  return read_seed(file);
}

/// Whether that key made that checkpoint.
bool signed_by(const std::string& verifier_key, const seal::SigningKey& key) {
  const auto parsed = seal::parse_verifier_key(verifier_key);
  return parsed && parsed->key == key.public_key();
}

}  // namespace

base::Result<seal::SigningKey> open_signing_key(const std::filesystem::path& folder,
                                                const std::optional<std::string>& last_verifier_key,
                                                NewKey new_key) {
  const std::filesystem::path file = folder / "signing.key";
  const bool may_change = new_key == NewKey::kMake || !last_verifier_key;
  auto seed = read_seed(file);
  if (!seed && seed.error().code == base::ErrorCode::kNotFound) {
    if (!may_change) {
      return base::Error{
          base::ErrorCode::kDamaged,
          file.string() + " is missing, and this book has signed checkpoints" + kWhatToDo};
    }
    seed = make_seed(file);
  }
  if (!seed) return seed.error();
  seal::SigningKey key(*seed);
  sodium_memzero(seed->data(), seed->size());
  const bool same = last_verifier_key && signed_by(*last_verifier_key, key);
  if (!same && !may_change) {
    return base::Error{base::ErrorCode::kDamaged, file.string() +
                                                      " is not the key of the last checkpoint, " +
                                                      *last_verifier_key + kWhatToDo};
  }
  if (same && new_key == NewKey::kMake) {
    return base::Error{base::ErrorCode::kConflict,
                       file.string() +
                           " is the key of the last checkpoint, and stays: start without "
                           "--new-key. Where others may have read it, move it away first"};
  }
  return key;
}

}  // namespace benchwarden::daemon
