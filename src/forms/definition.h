#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entries/effect.h"
#include "entries/field_value.h"
#include "forms/text_format.h"

namespace benchwarden::forms {

/// The kind whose entries carry fields of other kinds beside their own.
inline constexpr std::string_view kCorrectionKind = "correction";

/// "The field `field` holds one of `codes`."
struct Condition {
  std::string field;
  std::vector<std::string> codes;
};
using Conditions = std::vector<Condition>;  ///< all must hold; none: always

/// A closed interval of values in the field's unit.
struct Band {
  base::Decimal lowest;
  base::Decimal highest;
};

struct CodeOption {
  std::string code;
  std::string label;
  friend bool operator==(const CodeOption&, const CodeOption&) = default;
};

/// One of these fields (of a form) or columns (of a row) must be filled in.
struct AtLeastOne {
  std::vector<std::string> fields;
  Conditions when;
  int line = 0;
};

/// Of two fields or more, of one unit or all dates, none lies before one that stands earlier in the
/// list. Dates may be equal, quantities may not.
struct InOrder {
  std::vector<std::string> fields;
  /// Of dates: from each to the next not more days than these, both counted; 0: any number.
  int days_max = 0;
  int line = 0;
};

/// Things of the register that an entry tells to have been used: a field of that name, and when it
/// tells so. One that is withdrawn wants `confirmed`.
struct Use {
  std::string field;
  Conditions when;
  int line = 0;
};

/// What a day or a month tells of: it is held against the day of its entry.
enum class Tense {
  kAny,
  kPast,    ///< what was: not after that day
  kFuture,  ///< what is to come: not before it
};

struct FieldDefinition {
  std::string name;
  std::string label;
  std::string help;
  entries::FieldType type = entries::FieldType::kText;
  bool required = false;  ///< whenever it applies
  bool retired = false;   ///< read in old entries, refused in new ones
  bool fixed = false;     ///< cannot change once it was entered, by no correction either
  int since_version = 1;
  Conditions when;           ///< the field applies; otherwise it is refused
  Conditions required_when;  ///< it applies and is required
  // kQuantity
  const quantities::Unit* unit = nullptr;
  std::optional<Band> normal;  ///< outside: wants `confirmed`
  Band possible;               ///< outside: refused
  bool whole = false;          ///< no places
  // kId: exactly one of the two names the class
  std::string thing_class;  ///< "container"; ids by use are looked up nowhere
  std::string class_field;  ///< the code field that holds the class
  bool must_be_in_service = false;
  bool may_be_retired = false;
  /// Of a container: chapters of the List of Waste ("13"); a stream of another wants `confirmed`.
  std::vector<std::string> usual_chapters;
  // kCode
  std::vector<CodeOption> options;
  std::vector<std::string> usual_codes;  ///< where there are some, any other wants `confirmed`
  // kDate, and kText of the format month
  Tense tense = Tense::kAny;
  // kText
  std::size_t length_max = 500;  ///< code points
  TextFormat format = TextFormat::kAny;
  // kList
  std::vector<FieldDefinition> columns;  ///< scalars only, without conditions
  std::vector<AtLeastOne> at_least_one;  ///< in every row
  std::size_t rows_max = 20;
  int line = 0;  ///< where it stands in its file
};

/// The role -> field mapping of one effect of a kind, e.g. adds{container=container,
/// volume=volume_ml}. Which roles an effect has, and of what type, is fixed in code
/// (effect_roles.h) and checked when the definition is loaded. A column of a list is mapped as
/// "loads.volume" -> "volume_ml".
struct EffectDefinition {
  std::string
      effect;  ///< "adds", "moves", "takes", "reads", "checks", "changes", "handles", "notes"
  Conditions when;
  std::map<std::string, std::string, std::less<>> roles;
  /// Of "checks" and "notes": the fields the tallies keep of the entry; none named: all but free
  /// text, which is for people to read.
  std::vector<std::string> keeps;
  /// Of "checks" that can withdraw a thing: what the person who brings it back must be competent
  /// for, a code of the register's list of competences. "" where nothing is withdrawn.
  std::string competence;
  int line = 0;
};

/// What files an entry of a kind may carry, for people: "Signed note".
struct AttachmentsDefinition {
  std::string label;
  std::string help;
  std::size_t max = 0;  ///< 1 to kAttachmentsMax
  int line = 0;
};

/// The only definition of one kind of entry; read from forms/definitions/<kind>.toml.
struct Definition {
  std::string kind;
  int version = 1;
  std::string title;
  std::string purpose;
  std::vector<std::string> roles_allowed;  ///< roles of persons that may record it, or "daemon"
  std::vector<std::string> cautions;       ///< ids of cautions to show with it
  bool correctable = true;
  /// Such an entry, and any correction of one of the kind, wants the PIN again; none: no entry
  /// does.
  Conditions confirmed_when;
  std::vector<FieldDefinition> fields;  ///< in the order of the form
  std::vector<AtLeastOne> at_least_one;
  std::vector<InOrder> in_order;
  std::vector<Use> uses;
  std::vector<EffectDefinition> effects;
  std::optional<AttachmentsDefinition> attachments;  ///< none: entries of this kind carry no files
  std::string file;
};

const FieldDefinition* find_field(const std::vector<FieldDefinition>& fields,
                                  std::string_view name);
const FieldDefinition* find_field(const Definition& definition, std::string_view name);
/// A text of no format: a note, a name.
bool is_free_text(const FieldDefinition& field);
bool has_option(const FieldDefinition& field, std::string_view code);
/// The label of an option that the field has.
const std::string& label_of(const FieldDefinition& field, std::string_view code);
/// "container, tool": the codes of a field in their order.
std::string list_codes(const FieldDefinition& field);

/// The field in a role of an effect; "" where the form has none.
std::string field_in(const EffectDefinition& effect, std::string_view role);

/// Whether all conditions hold for the fields of one entry.
bool holds(const Conditions& conditions, const entries::Fields& fields);

}  // namespace benchwarden::forms
