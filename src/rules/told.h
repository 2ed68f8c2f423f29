#pragma once

#include <cstdint>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/newest_first.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// The words of a setting that lists some, parted by commas: "rust, bulge".
std::vector<std::string> listed_words(std::string_view setting);

/// The first and the last of the entries a finding rests on, by number.
std::vector<std::uint64_t> ends_of(std::uint64_t first, std::uint64_t last);
std::vector<std::uint64_t> ends_of(const tallies::Record& first, const tallies::Record& last);

/// Since when all of these attributes have the values they have, but not after now.
base::Instant holds_since(const Scene& scene, const findings::Subject& subject,
                          std::initializer_list<std::string_view> attributes);

/// Since when a condition on the attributes of a thing has held without a break, as the register
/// said it at each moment; now where it did not before. For one that holds now.
base::Instant held_since(const Scene& scene, const findings::Subject& subject,
                         const std::function<bool(const entries::Fields&)>& condition);

/// A number of an attribute or a field in the unit it is kept in; none where it was not entered.
std::optional<double> number_of(const entries::Fields& fields, std::string_view name,
                                std::string_view unit);

std::optional<double> number_of(const tallies::Record& record, std::string_view name,
                                std::string_view unit);
/// The same of a row of a list.
std::optional<double> number_of(const entries::Record& row, std::string_view name,
                                std::string_view unit);

/// A finding of a rule, to be filled in.
findings::Finding finding_of(const Rule& rule, findings::Subject subject, std::string_view says,
                             findings::Severity severity, base::Instant since);

/// Everything of a class that entries told of, in the register or not: events and stuck parts come
/// into being by the first entry about them.
std::vector<findings::Subject> told_things(const Rule& rule, const Scene& scene,
                                           std::string_view thing_class);
/// Whether an entry of a kind said that something was done about a thing and helped, no earlier
/// than the entry that asked for it.
bool is_closed(const Scene& scene, const findings::Subject& subject, const tallies::Record& asked,
               std::string_view closed_by);

/// The things a rule is about: those of its setting `about` that it applies to, or the workshop as
/// a whole for "workshop".
std::vector<findings::Subject> subjects_of(const Rule& rule, const Scene& scene);

}  // namespace benchwarden::rules
