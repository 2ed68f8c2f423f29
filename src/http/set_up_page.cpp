#include "http/set_up_page.h"

#include <memory>
#include <utility>

#include "base/text.h"
#include "http/host_list.h"

namespace benchwarden::http {
namespace {

/// Names and addresses hold no sign that HTML would take for its own.
std::string link_item(const std::string& host, std::uint16_t port) {
  const std::string address = "https://" + host + ":" + std::to_string(port) + "/";
  return "<li><a href=\"" + address + "\">" + address + "</a></li>\n";
}

std::string links(const SetUpFacts& facts) {
  std::string items = link_item(facts.name, facts.app_port);
  for (const std::string& address : facts.addresses()) {
    items += link_item(host_of_address(address), facts.app_port);
  }
  return items;
}

/// In rows of eight pairs, as it is compared by eye.
std::string fingerprint_rows(const std::string& fingerprint) {
  constexpr std::size_t kRow = 24;
  std::string rows;
  for (std::size_t start = 0; start < fingerprint.size(); start += kRow) {
    rows += "<span>" + fingerprint.substr(start, kRow - 1) + "</span>\n";
  }
  return rows;
}

std::string page(std::string_view text, const SetUpFacts& facts) {
  return base::fill(
      text, {{"name", facts.name},
             {"links", links(facts)},
             {"fingerprint",
              facts.authority ? fingerprint_rows(facts.authority->fingerprint) : std::string()}});
}

Route page_route(std::string_view text, const SetUpFacts& facts) {
  return {Method::kGet, "/", Who::open(), Effect::kReads,
          [text, facts](const Request&, const Context&) {
            Response response;
            response.content_type = "text/html; charset=utf-8";
            response.body = page(text, facts);
            return response;
          }};
}

/// Serves the bytes of the certificate, which it keeps.
Route certificate_route(const std::string& pem) {
  return {
      Method::kGet, "/benchwarden.crt", Who::open(), Effect::kReads,
      [pem = std::make_shared<const std::string>(pem)](const Request&, const Context&) {
        Response response;
        response.content_type = "application/x-x509-ca-cert";
        response.headers = {{"Content-Disposition", "attachment; filename=\"benchwarden.crt\""}};
        response.body = pem;
        return response;
      }};
}

}  // namespace

Application set_up_application(const SetUpTexts& texts, const SetUpFacts& facts) {
  Application application;
  application.routes.push_back(page_route(facts.authority ? texts.own : texts.given, facts));
  if (facts.authority) application.routes.push_back(certificate_route(facts.authority->pem));
  application.files["/set-up.css"] = {texts.style, "text/css; charset=utf-8"};
  return application;
}

}  // namespace benchwarden::http
