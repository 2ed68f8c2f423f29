#include "http/exchange.h"

#include <Poco/Net/HTTPServerRequest.h>
#include <Poco/Net/HTTPServerResponse.h>

#include <utility>

#include "http/host_list.h"
#include "http/problem.h"
#include "http/response_headers.h"

namespace benchwarden::http {
namespace {

/// How much of a refused body is read away before the connection is closed.
// A client that is still sending sees its answer only when its bytes are taken off the wire;
// `draining` bounds the time, this the work.
constexpr std::size_t kDrainedBytesMax = std::size_t{32} * 1024 * 1024;

RequestHead head_of(const Poco::Net::HTTPServerRequest& request, const std::string& peer) {
  RequestHead head;
  head.method = request.getMethod();
  head.target = request.getURI();
  head.version = request.getVersion();
  head.fields.assign(request.begin(), request.end());
  head.peer = peer;
  head.is_tls = request.secure();
  return head;
}

bool has_no_body(int status) { return status == 204 || status == 304; }

}  // namespace

Exchange::Exchange(const Shared& shared, ConnectionSlot& slot,
                   const Poco::Net::HTTPServerRequest& request)
    : shared_(shared), slot_(slot) {
  const RequestHead head = head_of(request, slot.peer());
  method_ = head.method;
  is_body_read_ = is_body_absent(head);
  screen(head);
}

void Exchange::screen(const RequestHead& head) {
  base::Result<Request, Response> screened = screen_head(head, shared_.rules);
  if (!screened) {
    constexpr int kMisdirected = 421;
    if (screened.error().status == kMisdirected) shared_.dispatcher.note_refused("host", head.peer);
    answer_.response = screened.error();
    return;
  }
  request_ = std::move(*screened);
  if (auto refusal = shared_.dispatcher.rate_refusal(request_)) {
    answer_.response = *std::move(refusal);
    return;
  }
  base::Result<Target, Response> target = shared_.dispatcher.find(request_.method, request_.path);
  if (!target) {
    answer_.response = target.error();
    return;
  }
  if (!admit_body(head, *target)) {
    return;
  }
  body_length_ = declared_length(head).value_or(0);
  target_ = std::move(*target);
}

bool Exchange::admit_body(const RequestHead& head, const Target& target) {
  const auto* match = std::get_if<RouteMatch>(&target);
  own_body_ = match != nullptr && match->route->body ? &*match->route->body : nullptr;
  if (std::optional<Response> refusal = screen_body(head, request_, shared_.rules, own_body_)) {
    constexpr int kForeignOrigin = 403;  // the only one of these that says so
    if (refusal->status == kForeignOrigin) shared_.dispatcher.note_refused("origin", head.peer);
    answer_.response = std::move(*refusal);
    return false;
  }
  if (own_body_ == nullptr) {
    return true;
  }
  // Whoever may not call the route takes no place, and no memory for a large body.
  if (std::optional<Answer> refusal = shared_.dispatcher.refusal_of(*match, request_)) {
    answer_ = std::move(*refusal);
    return false;
  }
  if (auto place = own_body_->places->enter()) {
    place_.emplace(std::move(*place));
  } else {
    answer_.response = problem(ProblemType::kUnavailable, "Others are sending files; come again.");
    answer_.response.headers.emplace_back("Retry-After", "5");
  }
  return place_.has_value();
}

void Exchange::announce(Poco::Net::HTTPServerResponse& response) const {
  if (!target_) {
    response.setStatus(static_cast<Poco::Net::HTTPResponse::HTTPStatus>(answer_.response.status));
  }
}

bool Exchange::read_body(Poco::Net::HTTPServerRequest& request) {
  if (is_body_read_) {
    return true;
  }
  if (own_body_ != nullptr) {
    slot_.enter_body(own_body_->time);
  } else {
    slot_.enter(Phase::kBody);
  }
  request_.body.resize(body_length_);
  request.stream().read(request_.body.data(), static_cast<std::streamsize>(body_length_));
  is_body_read_ = request.stream().gcount() == static_cast<std::streamsize>(body_length_);
  return is_body_read_;
}

Response Exchange::unread_answer() const {
  if (shared_.is_stopping) {
    return problem(ProblemType::kUnavailable, "The server is stopping; nothing was done.");
  }
  if (slot_.was_cut()) {
    return problem(ProblemType::kTimedOut, "The body did not arrive in time; nothing was done.");
  }
  return problem(ProblemType::kMalformed, "The body is shorter than its Content-Length.");
}

bool Exchange::is_strict() const {
  if (shared_.rules.tls_hosts.contains(request_.host)) return true;
  return request_.is_tls && !shared_.strict_host.empty() &&
         ascii_lower(request_.host.substr(0, request_.host.rfind(':'))) == shared_.strict_host;
}

bool Exchange::send(Poco::Net::HTTPServerResponse& response) const {
  const Response& ours = answer_.response;
  const std::string_view body = body_bytes(ours);
  response.setStatusAndReason(static_cast<Poco::Net::HTTPResponse::HTTPStatus>(ours.status));
  if (response.getVersion() != Poco::Net::HTTPMessage::HTTP_1_0) {
    // The library would repeat whatever version the request claimed.
    response.setVersion(Poco::Net::HTTPMessage::HTTP_1_1);
  }
  for (const auto& [name, value] : complete_headers(ours)) {
    response.add(name, value);
  }
  if (is_strict()) {
    response.add("Strict-Transport-Security", "max-age=31536000");
  }
  if (!has_no_body(ours.status)) {
    response.setContentType(ours.content_type);
    response.setContentLength64(static_cast<Poco::Int64>(body.size()));
  }
  std::ostream& stream = response.send();
  if (method_ != "HEAD" && !has_no_body(ours.status)) {
    stream.write(body.data(), static_cast<std::streamsize>(body.size()));
  }
  // Now and not when the library lets go of the stream: after this the guard may cut the idle
  // connection without harm to the answer.
  stream.flush();
  return stream.good();
}

void Exchange::run(Poco::Net::HTTPServerRequest& request, Poco::Net::HTTPServerResponse& response) {
  if (target_) {
    // A connection that was cut cannot be answered any more; nothing may be recorded for it.
    if (read_body(request) && !slot_.was_cut()) {
      slot_.enter(Phase::kWorking);
      const auto started = std::chrono::steady_clock::now();
      answer_ = shared_.dispatcher.answer(*target_, request_);
      worked_ = std::chrono::duration_cast<std::chrono::microseconds>(
          std::chrono::steady_clock::now() - started);
    } else {
      answer_.response = unread_answer();
    }
  }
  if (!is_body_read_ || shared_.is_stopping || slot_.was_cut()) {
    response.setKeepAlive(false);
  }
  slot_.enter(Phase::kSending);
  if (!send(response)) {
    response.setKeepAlive(false);
  }
  log();
  if (!is_body_read_) {
    slot_.half_close_and_drain(kDrainedBytesMax);
  }
  slot_.enter(Phase::kAwaiting);
}

void Exchange::log() const {
  AccessLine line;
  line.peer = slot_.peer();
  line.method = method_from_name(method_) ? method_ : "-";
  line.pattern = target_ ? Dispatcher::pattern_of(*target_, request_) : "-";
  line.status = answer_.response.status;
  line.person = answer_.person;
  line.body_bytes = body_bytes(answer_.response).size();
  line.duration = worked_;
  shared_.dispatcher.log(line);
}

}  // namespace benchwarden::http
