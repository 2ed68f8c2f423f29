#pragma once

#include <memory>
#include <mutex>
#include <utility>

#include "http/certified_key.h"

namespace benchwarden::http {

/// What a server shows to whoever connects next. Another one can be put in its place while it
/// serves; connections that stand keep theirs. All members may be called from any thread.
class ServingCertificate {
 public:
  explicit ServingCertificate(CertifiedKey first) { put(std::move(first)); }

  void put(CertifiedKey next) {
    auto shared = std::make_shared<const CertifiedKey>(std::move(next));
    const std::lock_guard lock(mutex_);
    current_ = std::move(shared);
  }
  [[nodiscard]] std::shared_ptr<const CertifiedKey> current() const {
    const std::lock_guard lock(mutex_);
    return current_;
  }

 private:
  mutable std::mutex mutex_;
  std::shared_ptr<const CertifiedKey> current_;
};

}  // namespace benchwarden::http
