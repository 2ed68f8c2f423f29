#pragma once

#include "http/api.h"

// One handler a route; each reads, calls one use case, and answers.
namespace benchwarden::http {

Response get_health(const ApiPorts& ports, const Request& request, const Context& context);
Response get_diagnostics(const ApiPorts& ports, const Request& request, const Context& context);
Response get_backups(const ApiPorts& ports, const Request& request, const Context& context);
Response get_openapi(const ApiPorts& ports, const Request& request, const Context& context);
Response get_emergency(const ApiPorts& ports, const Request& request, const Context& context);
Response get_forms(const ApiPorts& ports, const Request& request, const Context& context);
Response get_form(const ApiPorts& ports, const Request& request, const Context& context);

Response get_people(const ApiPorts& ports, const Request& request, const Context& context);
Response post_setup(const ApiPorts& ports, const Request& request, const Context& context);
Response get_session(const ApiPorts& ports, const Request& request, const Context& context);
Response post_session(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_session(const ApiPorts& ports, const Request& request, const Context& context);

/// The PIN again, before a weighty act.
Response post_confirmation(const ApiPorts& ports, const Request& request, const Context& context);

/// Of who is signed in, in place of the one before.
Response put_passphrase(const ApiPorts& ports, const Request& request, const Context& context);

/// All sessions to managers, to others their own; and how one is ended.
Response get_sessions(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_listed_session(const ApiPorts& ports, const Request& request,
                               const Context& context);

/// The access of an inspector.
Response put_inspection(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_inspection(const ApiPorts& ports, const Request& request, const Context& context);

/// Tokens for scripts; the secret of one is told when it is made, this once.
Response get_tokens(const ApiPorts& ports, const Request& request, const Context& context);
Response post_token(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_token(const ApiPorts& ports, const Request& request, const Context& context);

/// The accounts of people, as their manager keeps them.
Response get_accounts(const ApiPorts& ports, const Request& request, const Context& context);
Response post_person(const ApiPorts& ports, const Request& request, const Context& context);
Response put_pin(const ApiPorts& ports, const Request& request, const Context& context);
Response put_active(const ApiPorts& ports, const Request& request, const Context& context);

/// Paired tablets, and what this browser is paired as.
Response post_pairing(const ApiPorts& ports, const Request& request, const Context& context);
Response post_device(const ApiPorts& ports, const Request& request, const Context& context);
Response get_device(const ApiPorts& ports, const Request& request, const Context& context);
Response get_devices(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_device(const ApiPorts& ports, const Request& request, const Context& context);

Response get_entries(const ApiPorts& ports, const Request& request, const Context& context);
Response post_entries(const ApiPorts& ports, const Request& request, const Context& context);
Response get_entry_proof(const ApiPorts& ports, const Request& request, const Context& context);
Response get_unconfirmed_entries(const ApiPorts& ports, const Request& request,
                                 const Context& context);
Response get_entry(const ApiPorts& ports, const Request& request, const Context& context);
Response get_entry_findings(const ApiPorts& ports, const Request& request, const Context& context);

/// Answers 201, or 200 for a file that is there already.
Response post_attachment(const ApiPorts& ports, const Request& request, const Context& context);
Response get_attachment(const ApiPorts& ports, const Request& request, const Context& context);

Response get_things(const ApiPorts& ports, const Request& request, const Context& context);
Response get_thing(const ApiPorts& ports, const Request& request, const Context& context);
Response post_register_import(const ApiPorts& ports, const Request& request,
                              const Context& context);
Response get_levels(const ApiPorts& ports, const Request& request, const Context& context);
Response get_history(const ApiPorts& ports, const Request& request, const Context& context);
Response get_consistency(const ApiPorts& ports, const Request& request, const Context& context);
Response get_checkpoints(const ApiPorts& ports, const Request& request, const Context& context);
Response get_proof_file(const ApiPorts& ports, const Request& request, const Context& context);
Response get_checkpoint(const ApiPorts& ports, const Request& request, const Context& context);

/// What the rules say, and the rules.
Response get_findings(const ApiPorts& ports, const Request& request, const Context& context);
Response get_rules(const ApiPorts& ports, const Request& request, const Context& context);
Response get_rule_packs(const ApiPorts& ports, const Request& request, const Context& context);
Response post_rule_check(const ApiPorts& ports, const Request& request, const Context& context);
Response put_local_pack(const ApiPorts& ports, const Request& request, const Context& context);
Response get_retention(const ApiPorts& ports, const Request& request, const Context& context);

/// Collections by date, and what to hand over next.
Response get_collections(const ApiPorts& ports, const Request& request, const Context& context);
Response get_proposal(const ApiPorts& ports, const Request& request, const Context& context);

/// The months with their totals, and the figures of one as they would be signed.
Response get_months(const ApiPorts& ports, const Request& request, const Context& context);
Response get_month(const ApiPorts& ports, const Request& request, const Context& context);

Response get_due(const ApiPorts& ports, const Request& request, const Context& context);
Response get_calendar_feed(const ApiPorts& ports, const Request& request, const Context& context);
Response post_calendar_feed(const ApiPorts& ports, const Request& request, const Context& context);
Response delete_calendar_feed(const ApiPorts& ports, const Request& request,
                              const Context& context);
Response get_calendar(const ApiPorts& ports, const Request& request, const Context& context);

Response get_calculations(const ApiPorts& ports, const Request& request, const Context& context);
Response post_calculation(const ApiPorts& ports, const Request& request, const Context& context);

/// For one of the four formats: "pdf", "html", "csv", "json".
Response get_report(const ApiPorts& ports, const Request& request, const Context& context,
                    const std::string& format);
Response post_report(const ApiPorts& ports, const Request& request, const Context& context);
Response get_issued_figures(const ApiPorts& ports, const Request& request, const Context& context);
Response get_issued_report(const ApiPorts& ports, const Request& request, const Context& context);

}  // namespace benchwarden::http
