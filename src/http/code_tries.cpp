#include "http/code_tries.h"

#include "access/place.h"
#include "http/problem.h"

namespace benchwarden::http {

std::optional<Response> code_try_refusal(RateLimits& tries, const std::string& peer,
                                         RateLimits::Time now) {
  if (access::is_loopback(peer)) return std::nullopt;
  const auto wait_s = tries.take(peer, now);
  if (!wait_s) return std::nullopt;
  Response refusal = problem(ProblemType::kTooMany, "Too many codes were tried from here.");
  refusal.headers.emplace_back("Retry-After", std::to_string(*wait_s));
  return refusal;
}

}  // namespace benchwarden::http
