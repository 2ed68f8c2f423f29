#include "http/scoped_entries.h"

#include "http/api_answers.h"
#include "workshop/attachments.h"
#include "workshop/views.h"

namespace benchwarden::http {
namespace {

using access::InspectionScope;

Response outside() {
  return problem(ProblemType::kForbidden, "Not within the access that is given.");
}

bool lies_in(InspectionScope scope, const workshop::EntryNature& nature) {
  return nature.report ? report_in_scope(scope, *nature.report) : kind_in_scope(scope, nature.kind);
}

}  // namespace

InspectionScope scope_of(const Context& context) {
  const auto& inspection = context.who().session.inspection;
  return inspection ? inspection->scope : InspectionScope::kEverything;
}

base::Result<base::Uuid, Response> entry_of_path(const ApiPorts& ports, const Context& context) {
  const auto id = base::parse_uuid(context.part("id"));
  if (!id) return error_answer({base::ErrorCode::kNotFound, id.error().detail});
  const auto nature = workshop::nature_of(ports.workshop, *id);
  if (!nature) return error_answer(nature.error());
  if (!lies_in(scope_of(context), *nature)) return outside();
  return *id;
}

std::optional<Response> file_refusal(const ApiPorts& ports, const Context& context,
                                     const base::Sha256Digest& digest) {
  const InspectionScope scope = scope_of(context);
  if (scope == InspectionScope::kEverything) return std::nullopt;
  const auto named = workshop::is_named(ports.workshop, digest, [scope](std::string_view kind) {
    return kind_in_scope(scope, kind);
  });
  if (!named) return error_answer(named.error());
  return *named ? std::nullopt : std::optional(outside());
}

}  // namespace benchwarden::http
