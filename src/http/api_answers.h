#pragma once

#include "base/json.h"
#include "base/result.h"
#include "http/api.h"
#include "http/problem.h"
#include "workshop/fold.h"

namespace benchwarden::http {

/// The person of the session, whose PIN was checked.
workshop::Actor actor_of(const Context& context);
/// That person, where somebody is signed in, and the paired device.
workshop::Sender sender_of(const Context& context);

/// From where that is sent, as signing in counts it.
access::From from_of(const ApiPorts& ports, const Request& request, const Context& context);

/// When a day of the workshop's zone begins, and when it is over; 422 naming that member for what
/// is no date.
base::Result<base::Instant, Response> start_of_day(const ApiPorts& ports,
                                                   const std::string& pointer,
                                                   const std::string& text);
base::Result<base::Instant, Response> end_of_day(const ApiPorts& ports, const std::string& pointer,
                                                 const std::string& text);

/// 429 where codes were tried from there too often, which is noted; and a note of a wrong one.
std::optional<Response> code_try_refusal(const ApiPorts& ports, const Request& request);
void note_wrong_code(const ApiPorts& ports, const Request& request, const base::Error& error);

/// An inspector's access, or null.
base::Json inspection_json(const std::optional<access::Inspection>& inspection);

base::Json time_or_null(const std::optional<base::Instant>& instant);

/// `name`=`value`, kept from scripts and from requests that other sites start; on TLS from plain
/// HTTP, too.
std::string cookie_header(const Request& request, const std::string& name, const std::string& value,
                          std::int64_t seconds);

Response json_answer(int status, const base::Json& body);

/// The one place where an inner error becomes a status.
Response error_answer(const base::Error& error);

/// 200 with the value, or the error's answer.
Response answer_of(const base::Result<base::Json>& result);

/// 422 naming one member of the query or the path.
Response refused_value(const std::string& pointer, const std::string& detail);

/// 422 naming that member, where its value is what cannot be taken; else the error's answer.
Response refused_member(const std::string& pointer, const base::Error& error);

/// What `as_of` and `known_at` of a query ask for, the only names it may have; none asked: now.
base::Result<std::optional<workshop::Viewpoint>, Response> read_viewpoint(const Query& query,
                                                                          std::uint64_t book_size);

/// {"id", "name", "role"}
base::JsonObject person_json(const access::Person& person);

/// How far the book had come and which day it was: read before an answer is made, so that what the
/// answer says is never older than its tag.
std::string book_tag(const ApiPorts& ports);
/// Lets a caller that holds the answer of this tag go without it.
Response tagged(Response response, const std::string& tag);

/// The members of a JSON body that must be text; a 422 that names every one that is missing, no
/// text or not known here.
using TextMembers = std::vector<std::string>;
base::Result<TextMembers, Response> read_text_members(const Request& request,
                                                      const std::vector<std::string>& names);

}  // namespace benchwarden::http
