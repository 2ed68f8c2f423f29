#include <string>
#include <utility>

#include "document/qr_code.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/device_views.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr const char* kCookie = "benchwarden_device";
constexpr std::int64_t kCookieSeconds = 400LL * 24 * 3600;  // browsers keep none for longer

JsonObject device_json(const access::Device& device) {
  return {{"id", device.id}, {"name", device.name}};
}

/// "ABCD-EFGH": easier to read aloud, and typed with or without the hyphen.
std::string in_halves(const std::string& code) {
  const std::size_t half = code.size() / 2;
  return code.substr(0, half) + "-" + code.substr(half);
}

base::Result<JsonArray> qr_json(const std::string& text) {
  const auto rows = document::qr_code(text);
  if (!rows) return rows.error();
  JsonArray array;
  for (const std::string& row : *rows) array.emplace_back(row);
  return array;
}

/// How a tablet comes to trust our certificate first; null where there is nothing to trust.
base::Result<Json> set_up_json(const Addresses& addresses) {
  if (!addresses.set_up) return Json(nullptr);
  auto qr = qr_json(*addresses.set_up);
  if (!qr) return qr.error();
  const auto& print = addresses.ca_fingerprint;
  return Json(JsonObject{{"address", *addresses.set_up},
                         {"qr", *std::move(qr)},
                         {"ca_fingerprint", print ? Json(*print) : Json(nullptr)}});
}

base::Result<Json> pairing_json(const Addresses& addresses, const access::NewPairing& made) {
  const std::string address = addresses.app + "/#/pair/" + made.code;
  auto qr = qr_json(address);
  if (!qr) return qr.error();
  auto set_up = set_up_json(addresses);
  if (!set_up) return set_up.error();
  return Json(JsonObject{{"code", in_halves(made.code)},
                         {"ends_at", base::format_rfc3339_utc(made.ends_at)},
                         {"address", address},
                         {"qr", *std::move(qr)},
                         {"set_up", *std::move(set_up)}});
}

Json listed_json(const ApiPorts& ports, const access::ListedDevice& listed) {
  JsonObject device = device_json(listed.device);
  device.emplace_back("paired_at", base::format_rfc3339_utc(listed.paired_at));
  device.emplace_back("paired_by", listed.paired_by);
  device.emplace_back("last_seen_at", base::format_rfc3339_utc(listed.last_seen_at));
  device.emplace_back("ended_at", time_or_null(listed.ended_at));
  for (auto& member : workshop::device_in_book(ports.workshop, listed.device.id)) {
    device.push_back(std::move(member));
  }
  return device;
}

}  // namespace

RecogniseDevice device_recogniser(access::Access& access) {
  return [&access](const Request& request) -> std::optional<access::Device> {
    if (!request.device_secret) return std::nullopt;
    auto device = access.device(*request.device_secret);
    if (!device) return std::nullopt;
    return *std::move(device);
  };
}

Response post_pairing(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"name"});
  if (!texts) return texts.error();
  const auto made = ports.access.begin_pairing(texts->front(), context.who().session.person);
  if (!made) return refused_member("/name", made.error());
  const auto json = pairing_json(ports.addresses, *made);
  return json ? json_answer(201, *json) : error_answer(json.error());
}

Response post_device(const ApiPorts& ports, const Request& request, const Context&) {
  const auto texts = read_text_members(request, {"code"});
  if (!texts) return texts.error();
  if (auto refusal = code_try_refusal(ports, request)) return *std::move(refusal);
  const auto made = ports.access.pair_device(texts->front());
  if (!made) {
    note_wrong_code(ports, request, made.error());
    return error_answer(made.error());
  }
  Response response = json_answer(201, device_json(made->device));
  response.headers.emplace_back("Set-Cookie",
                                cookie_header(request, kCookie, made->secret, kCookieSeconds));
  return response;
}

Response get_device(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto& device = context.caller().device;
  const bool is_elsewhere = from_of(ports, request, context).place == access::Place::kElsewhere;
  Response response =
      json_answer(200, JsonObject{{"device", device ? Json(device_json(*device)) : Json(nullptr)},
                                  {"sign_in_by", is_elsewhere ? "passphrase" : "pin"}});
  if (device) {  // a tablet in use stays paired, however long ago it was paired
    response.headers.emplace_back(
        "Set-Cookie", cookie_header(request, kCookie, *request.device_secret, kCookieSeconds));
  }
  return response;
}

Response get_devices(const ApiPorts& ports, const Request&, const Context&) {
  const auto devices = ports.access.devices();
  if (!devices) return error_answer(devices.error());
  JsonArray list;
  for (const access::ListedDevice& listed : *devices) {
    list.emplace_back(listed_json(ports, listed));
  }
  return json_answer(200, JsonObject{{"devices", std::move(list)}});
}

Response delete_device(const ApiPorts& ports, const Request&, const Context& context) {
  const auto ended = ports.access.end_device(context.part("id"), context.who().session.person);
  if (!ended) return error_answer(ended.error());
  Response response;
  response.status = 204;
  return response;
}

}  // namespace benchwarden::http
