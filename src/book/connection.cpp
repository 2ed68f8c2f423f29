#include "book/connection.h"

#include <algorithm>
#include <utility>

namespace benchwarden::book {

StatementInUse::StatementInUse(StatementInUse&& other) noexcept
    : statement_(std::exchange(other.statement_, nullptr)) {}

StatementInUse::~StatementInUse() {
  if (statement_ != nullptr) statement_->reset();
}

base::Result<StatementInUse> Connection::statement(std::string_view sql) {
  auto found = statements_.find(sql);
  if (found == statements_.end()) {
    auto prepared = database_.prepare(sql);
    if (!prepared.ok()) return prepared.error();
    found = statements_.emplace(std::string(sql), *std::move(prepared)).first;
  }
  return StatementInUse(found->second);
}

base::Result<base::Sha256Digest> digest_of_blob(std::string_view bytes) {
  base::Sha256Digest digest{};
  if (bytes.size() != digest.size()) {
    return base::Error{base::ErrorCode::kDamaged, "a stored hash is not 32 bytes long"};
  }
  std::transform(bytes.begin(), bytes.end(), digest.begin(),
                 [](char c) { return static_cast<std::uint8_t>(c); });
  return digest;
}

}  // namespace benchwarden::book
