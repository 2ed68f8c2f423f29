#pragma once

#include <optional>
#include <string>

#include "base/json.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// {"forms": [{"kind", "version", "title", "purpose"}]}
base::Json list_forms(const Ports& ports);
/// The definition of one kind with the cautions to show beside it.
base::Result<base::Json> show_form(const Ports& ports, std::string_view kind);
/// The emergency page: {"title", "sections": [{"title", "lines"}]}, with the site's own address,
/// phone, cut-offs and places where they are in the register.
base::Json show_emergency(const Ports& ports);
/// What the app shows amounts in: {"units": "metric" or "us", "number_format": "point" or "comma"};
/// metric with a point while the register says nothing.
base::Json shown_in(const Ports& ports);
/// The OpenAPI 3.1 document: the paths of forms/wording/openapi.json with one schema a kind of
/// entry, made from its definition.
base::Json openapi(const Ports& ports);

}  // namespace benchwarden::workshop
