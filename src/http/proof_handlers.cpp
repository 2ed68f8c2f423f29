#include "base/uuid.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/proof_views.h"

namespace benchwarden::http {
namespace {

/// How many entries a book had: nothing where the query does not say, 422 where it says no number.
base::Result<std::optional<std::uint64_t>, Response> read_book_size(const Request& request,
                                                                    const std::string& name) {
  const std::string* text = request.query.find(name);
  if (text == nullptr) return std::optional<std::uint64_t>{};
  const auto size = whole_number<std::uint64_t>(*text);
  if (!size) return refused_value("/query/" + name, name + ": how many entries the book had");
  return size;
}

}  // namespace

Response get_entry_proof(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto id = base::parse_uuid(context.part("id"));
  if (!id) return error_answer({base::ErrorCode::kNotFound, id.error().detail});
  const auto size = read_book_size(request, "size");
  if (!size) return size.error();
  return answer_of(workshop::show_inclusion(ports.workshop, *id, *size));
}

Response get_checkpoint(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::show_checkpoint(ports.workshop));
}

Response get_consistency(const ApiPorts& ports, const Request& request, const Context&) {
  const auto from = read_book_size(request, "from");
  if (!from) return from.error();
  const auto to = read_book_size(request, "to");
  if (!to) return to.error();
  if (!*from) return refused_value("/query/from", "from: how many entries the book had");
  const auto shown = workshop::show_consistency(ports.workshop, **from, *to);
  return shown ? json_answer(200, *shown) : refused_member("/query/from", shown.error());
}

}  // namespace benchwarden::http
