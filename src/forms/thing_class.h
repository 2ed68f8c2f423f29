#pragma once

#include <string>
#include <string_view>

namespace benchwarden::forms {

/// A class of the register, whose things are entered by register-change: "container", "tool" …
bool is_registered_class(std::string_view thing_class);
/// "workshop, stream, container …": all of them.
std::string list_registered_classes();
/// A class whose ids come into being by use: "collection", "event", "stuck-part".
bool is_class_by_use(std::string_view thing_class);
/// A registered class, or one whose ids come into being by use.
bool is_known_class(std::string_view thing_class);

}  // namespace benchwarden::forms
