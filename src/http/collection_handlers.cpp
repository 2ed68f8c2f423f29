#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/collections.h"
#include "workshop/proposal.h"

namespace benchwarden::http {

Response get_collections(const ApiPorts& ports, const Request&, const Context&) {
  return answer_of(workshop::show_collections(ports.workshop));
}

Response get_proposal(const ApiPorts& ports, const Request&, const Context&) {
  return answer_of(workshop::show_proposal(ports.workshop));
}

}  // namespace benchwarden::http
