#include "daemon/signing_key.h"

#include <sodium.h>

#include <iostream>
#include <system_error>

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

/// Says so where others than its owner could get at it; once it is read, they no longer can.
void tell_if_open_to_others(const std::filesystem::path& file) {
  using std::filesystem::perms;
  std::error_code failure;
  const perms rights = std::filesystem::symlink_status(file, failure).permissions();
  if (failure || (rights & (perms::group_all | perms::others_all)) == perms::none) return;
  std::cerr << "benchwarden: " << file.string()
            << " could be read or written by others than its owner until now. Where one of them "
               "may have copied it, move it away and start once with --new-key\n";
}

/// So that what cannot be read hinders no new one, and can still be looked at.
base::Status<> move_aside(const std::filesystem::path& file) {
  const std::filesystem::path aside = file.string() + ".unreadable";
  std::error_code failure;
  if (std::filesystem::exists(aside, failure)) {
    return base::Error{base::ErrorCode::kConflict,
                       aside.string() + " is there; take it away first"};
  }
  std::filesystem::rename(file, aside, failure);
  if (failure) {
    return base::Error{base::ErrorCode::kUnavailable, file.string() + ": " + failure.message()};
  }
  std::cerr << "benchwarden: what was there lies in " << aside.string() << "\n";
  return base::Done{};
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
  tell_if_open_to_others(file);
  auto seed = read_seed(file);
  if (!seed && seed.error().code == base::ErrorCode::kDamaged && new_key == NewKey::kMake) {
    const auto moved = move_aside(file);
    if (!moved) return moved.error();
    seed = make_seed(file);
  }
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
