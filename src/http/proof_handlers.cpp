#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "http/scoped_entries.h"
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
  const auto id = entry_of_path(ports, context);
  if (!id) return id.error();
  const auto size = read_book_size(request, "size");
  if (!size) return size.error();
  return answer_of(workshop::show_inclusion(ports.workshop, *id, *size));
}

Response get_checkpoint(const ApiPorts& ports, const Request&, const Context&) {
  return answer_of(workshop::show_checkpoint(ports.workshop));
}

Response get_checkpoints(const ApiPorts& ports, const Request& request, const Context&) {
  constexpr std::size_t kLimitMax = 200;
  std::uint64_t after = 0;
  std::size_t limit = 50;
  for (const auto& [name, value] : request.query.items()) {
    const auto number = whole_number<std::uint64_t>(value);
    const bool fits = number && *number <= (name == "limit" ? kLimitMax : INT64_MAX);
    if (!fits || (name == "limit" && *number == 0)) {
      return refused_value("/query/" + name,
                           name == "limit" ? "limit: 1 to 200" : "after: number of a checkpoint");
    }
    (name == "limit" ? limit : after) = *number;
  }
  return answer_of(workshop::list_checkpoints(ports.workshop, after, limit));
}

Response get_proof_file(const ApiPorts& ports, const Request&, const Context& context) {
  const auto id = entry_of_path(ports, context);
  if (!id) return id.error();
  auto file = workshop::proof_file(ports.workshop, *id);
  if (!file) return error_answer(file.error());
  Response response;
  response.content_type = "text/plain; charset=utf-8";
  response.headers.emplace_back(
      "Content-Disposition",
      "attachment; filename=\"entry-" + std::to_string(file->seq) + ".tlog-proof\"");
  response.body = std::move(file->bytes);
  return response;
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
