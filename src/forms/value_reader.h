#pragma once

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/json.h"
#include "entries/entry.h"
#include "entries/refusal.h"
#include "forms/definition.h"
#include "forms/submission.h"

namespace benchwarden::forms {

/// The ids a field held before a correction, as "emptied_into=d1" or "loads/container=w1".
using NamedBefore = std::set<std::string, std::less<>>;
/// Those of all fields of an entry.
NamedBefore named_before(const entries::Fields& fields);

/// What reading a value depends on beside its definition.
struct ReadContext {
  const Surroundings& surroundings;
  const std::set<std::string, std::less<>>& confirmed;
  /// When what is told happened; for a correction when its target did.
  base::Instant occurred_at;
  /// Things that may have gone out of use since: they need only exist.
  NamedBefore named_before = {};
  /// The entry that a correction is about.
  std::optional<base::Uuid> corrects = std::nullopt;
};

/// Reads the values of one submission's fields. Each value brings at most one refusal, the first
/// that holds: type, form, range, confirmation; for ids type, form, known, retired, in service,
/// confirmation. One that wants confirmation only is read nevertheless.
class ValueReader {
 public:
  ValueReader(ReadContext context, entries::Refusals& refusals)
      : context_(std::move(context)), refusals_(refusals) {}

  /// nullopt after a refusal.
  std::optional<entries::FieldValue> read(const FieldDefinition& field, const base::Json& json);
  /// Quantities given in another unit than their field's, in the order read.
  [[nodiscard]] const std::vector<entries::AsRead>& as_read() const { return as_read_; }

 private:
  std::optional<entries::Scalar> scalar(const FieldDefinition& field, const base::Json& json,
                                        const std::string& path);
  std::optional<entries::Scalar> quantity(const FieldDefinition& field, const base::Json& json,
                                          const std::string& path);
  std::optional<entries::Scalar> id(const FieldDefinition& field, const std::string& text,
                                    const std::string& path);
  std::optional<entries::Scalar> code(const FieldDefinition& field, const std::string& code,
                                      const std::string& path);
  std::optional<entries::Scalar> text(const FieldDefinition& field, const std::string& text,
                                      const std::string& path);
  std::optional<entries::List> list(const FieldDefinition& field, const base::JsonArray& rows);
  std::optional<entries::Record> row(const FieldDefinition& field, const base::Json& json,
                                     const std::string& path);
  void check_columns(const FieldDefinition& field, const base::JsonObject& members,
                     const std::string& path);
  std::optional<base::Decimal> decimal(const FieldDefinition& field, const base::Json& json,
                                       const std::string& pointer);
  std::optional<quantities::Quantity> with_unit(const FieldDefinition& field,
                                                const base::JsonObject& members,
                                                const std::string& path);
  /// `value` is what was given, in the field's own unit.
  bool in_bands(const FieldDefinition& field, const quantities::Quantity& given,
                base::Decimal value, const std::string& path);
  bool is_usable(const FieldDefinition& field, const Thing& thing, const std::string& text,
                 const std::string& path);
  void ask_if_unusual(const FieldDefinition& field, const Thing& thing, const std::string& text,
                      const std::string& path);
  std::optional<entries::Scalar> date(const FieldDefinition& field, const std::string& text,
                                      const std::string& path);
  /// Whether a day, or a month by any of its days, lies where the field's tense wants it.
  bool is_in_time(const FieldDefinition& field, base::CivilDate first, base::CivilDate last,
                  const std::string& text, const std::string& path);
  /// Refuses and gives the empty answer every reader of a value may return.
  std::nullopt_t refuse(const std::string& path, entries::RefusalCode code, std::string value,
                        std::string accepted);

  ReadContext context_;
  entries::Refusals& refusals_;
  std::vector<entries::AsRead> as_read_;
};

}  // namespace benchwarden::forms
