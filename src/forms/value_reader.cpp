#include "forms/value_reader.h"

#include <algorithm>

#include "base/text.h"
#include "forms/confirmation.h"
#include "forms/shown.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {

using base::Json;
using entries::FieldType;
using entries::RefusalCode;
using entries::Scalar;

namespace {

/// "loads/container" for the place "loads/2/container": a list is replaced as a whole, and its rows
/// may have changed places.
std::string without_row(const std::string& path) {
  const std::size_t first = path.find('/');
  return first == std::string::npos ? path : path.substr(0, first) + path.substr(path.rfind('/'));
}

}  // namespace

NamedBefore named_before(const entries::Fields& fields) {
  NamedBefore named;
  for (const entries::Field& field : fields) {
    if (const auto* id = std::get_if<entries::Id>(&field.value)) {
      named.insert(field.name + "=" + id->slug);
    }
    const auto* list = std::get_if<entries::List>(&field.value);
    if (list == nullptr) continue;
    for (const entries::Record& row : list->rows) {
      for (const auto& [column, value] : row) {
        const auto* id = std::get_if<entries::Id>(&value);
        if (id != nullptr) named.insert(field.name + "/" + column + "=" + id->slug);
      }
    }
  }
  return named;
}

std::nullopt_t ValueReader::refuse(const std::string& path, RefusalCode code, std::string value,
                                   std::string accepted) {
  refusals_.push_back({"/fields/" + path, code, std::move(value), std::move(accepted)});
  return std::nullopt;
}

std::optional<entries::FieldValue> ValueReader::read(const FieldDefinition& field,
                                                     const Json& json) {
  if (field.type == FieldType::kList) {
    const base::JsonArray* rows = json.array();
    if (rows == nullptr) {
      return refuse(field.name, RefusalCode::kWrongType, shown_value(json), "[…]");
    }
    auto list_read = list(field, *rows);
    if (!list_read) return std::nullopt;
    return entries::FieldValue(std::move(*list_read));
  }
  auto scalar_read = scalar(field, json, field.name);
  if (!scalar_read) return std::nullopt;
  return std::visit(
      [](auto&& value) { return entries::FieldValue(std::forward<decltype(value)>(value)); },
      std::move(*scalar_read));
}

std::optional<Scalar> ValueReader::scalar(const FieldDefinition& field, const Json& json,
                                          const std::string& path) {
  if (field.type == FieldType::kQuantity) return quantity(field, json, path);
  const std::string* given = json.string();
  if (given == nullptr) {
    return refuse(path, RefusalCode::kWrongType, shown_value(json), shown_accepted(field));
  }
  if (field.type == FieldType::kId) return id(field, *given, path);
  if (field.type == FieldType::kText) return text(field, *given, path);
  if (field.type == FieldType::kDate) return date(field, *given, path);
  return code(field, *given, path);
}

std::optional<Scalar> ValueReader::code(const FieldDefinition& field, const std::string& code,
                                        const std::string& path) {
  if (!has_option(field, code)) {
    return refuse(path, RefusalCode::kUnknownCode, shown_value(Json(code)), shown_accepted(field));
  }
  const std::vector<std::string>& usual = field.usual_codes;
  if (!usual.empty() && std::find(usual.begin(), usual.end(), code) == usual.end()) {
    std::vector<std::string> labels;
    labels.reserve(usual.size());
    for (const std::string& one : usual) labels.push_back(label_of(field, one));
    ask(path, {entries::Unusual::kAnswer, label_of(field, code), base::join(labels, ", "), ""},
        context_, refusals_);
  }
  return Scalar(entries::Code{code});
}

std::optional<Scalar> ValueReader::date(const FieldDefinition& field, const std::string& text,
                                        const std::string& path) {
  const auto date = base::parse_date(text);
  if (!date) {
    return refuse(path, RefusalCode::kBadDate, shown_value(Json(text)), shown_accepted(field));
  }
  if (!is_in_time(field, *date, *date, text, path)) return std::nullopt;
  return Scalar(*date);
}

bool ValueReader::is_in_time(const FieldDefinition& field, base::CivilDate first,
                             base::CivilDate last, const std::string& text,
                             const std::string& path) {
  if (field.tense == Tense::kAny) return true;
  // What a register entry says holds from its recording: its context has no moment of its own.
  const Surroundings& world = context_.surroundings;
  const base::CivilDate day = world.day_of(std::min(context_.occurred_at, world.now()));
  if (field.tense == Tense::kPast && first > day) {
    refuse(path, RefusalCode::kYetToCome, text, "≤ " + base::format_date(day));
    return false;
  }
  if (field.tense == Tense::kFuture && last < day) {
    refuse(path, RefusalCode::kPassedAlready, text, "≥ " + base::format_date(day));
    return false;
  }
  return true;
}

std::optional<Scalar> ValueReader::text(const FieldDefinition& field, const std::string& text,
                                        const std::string& path) {
  const std::string shown = shown_value(Json(text));
  const std::string accepted = shown_accepted(field);
  if (base::is_blank(text)) {
    return refuse(path, RefusalCode::kBlankText, shown, accepted);
  }
  if (const auto hidden = base::hidden_sign(text)) {
    return refuse(path, RefusalCode::kHiddenSign, base::sign_name(*hidden), accepted);
  }
  if (base::count_code_points(text) > field.length_max) {
    return refuse(path, RefusalCode::kTextTooLong, shown, accepted);
  }
  if (!has_format(text, field.format)) return refuse(path, RefusalCode::kBadText, shown, accepted);
  if (field.format == TextFormat::kMonth) {
    const base::CivilMonth month = *base::parse_month(text);
    const bool fits = is_in_time(field, base::first_day(month), base::last_day(month), text, path);
    if (!fits) return std::nullopt;
  }
  return Scalar(entries::Text{text});
}

std::optional<Scalar> ValueReader::id(const FieldDefinition& field, const std::string& text,
                                      const std::string& path) {
  const std::string shown = shown_value(Json(text));
  if (!base::is_slug(text)) {
    return refuse(path, RefusalCode::kBadId, shown, shown_accepted(field));
  }
  if (is_registered_class(field.thing_class)) {
    const auto thing = context_.surroundings.thing(field.thing_class, text);
    if (!thing) return refuse(path, RefusalCode::kUnknownThing, shown, field.thing_class);
    if (!is_usable(field, *thing, shown, path)) return std::nullopt;
    ask_if_unusual(field, *thing, shown, path);
  }
  return Scalar(entries::Id{text});
}

bool ValueReader::is_usable(const FieldDefinition& field, const Thing& thing,
                            const std::string& text, const std::string& path) {
  if (context_.named_before.contains(without_row(path) + "=" + text)) return true;
  // What happened before the thing went out of use is taken, however late it is recorded.
  if (thing.out_of_use_since && context_.occurred_at < *thing.out_of_use_since) return true;
  if (thing.retired && !field.may_be_retired) {
    refuse(path, RefusalCode::kRetiredThing, text, field.thing_class);
    return false;
  }
  if (!thing.in_service && field.must_be_in_service) {
    refuse(path, RefusalCode::kNotInService, text, field.thing_class);
    return false;
  }
  return true;
}

void ValueReader::ask_if_unusual(const FieldDefinition& field, const Thing& thing,
                                 const std::string& text, const std::string& path) {
  if (field.usual_chapters.empty()) return;
  if (context_.named_before.contains(without_row(path) + "=" + text)) return;
  const auto* stream = entries::find_field_as<entries::Id>(thing.attributes, "stream");
  const auto facts =
      stream == nullptr ? std::nullopt : context_.surroundings.thing("stream", stream->slug);
  const auto* code =
      facts ? entries::find_field_as<entries::Text>(facts->attributes, "low_code") : nullptr;
  if (code == nullptr) return;
  for (const std::string& chapter : field.usual_chapters) {
    if (code->text.starts_with(chapter)) return;
  }
  ask(path,
      {entries::Unusual::kOtherChapter, code->text, base::join(field.usual_chapters, ", "),
       name_of(field.thing_class, text, context_.surroundings)},
      context_, refusals_);
}

std::optional<entries::List> ValueReader::list(const FieldDefinition& field,
                                               const base::JsonArray& rows) {
  if (rows.empty()) return refuse(field.name, RefusalCode::kMissing, "", shown_accepted(field));
  if (rows.size() > field.rows_max) {
    return refuse(field.name, RefusalCode::kTooManyRows, std::to_string(rows.size()),
                  shown_accepted(field));
  }
  entries::List list;
  bool complete = true;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    auto record = row(field, rows[i], field.name + "/" + std::to_string(i));
    complete = complete && record.has_value();
    if (record) list.rows.push_back(std::move(*record));
  }
  if (!complete) return std::nullopt;
  return list;
}

std::optional<entries::Record> ValueReader::row(const FieldDefinition& field, const Json& json,
                                                const std::string& path) {
  const base::JsonObject* members = json.object();
  if (members == nullptr) {
    return refuse(path, RefusalCode::kWrongType, shown_value(json), "{…}");
  }
  const std::size_t refused_before = refusals_.size();
  entries::Record record;
  for (const FieldDefinition& column : field.columns) {
    const std::string cell_path = path + "/" + column.name;
    const Json* cell = json.find(column.name);
    if (cell == nullptr) {
      if (column.required) refuse(cell_path, RefusalCode::kMissing, "", shown_accepted(column));
      continue;
    }
    if (column.retired) {
      refuse(cell_path, RefusalCode::kRetiredField, shown_value(*cell), "");
      continue;
    }
    if (auto value = scalar(column, *cell, cell_path)) {
      record.emplace_back(column.name, std::move(*value));
    }
  }
  check_columns(field, *members, path);
  if (refusals_.size() != refused_before) return std::nullopt;
  return record;
}

void ValueReader::check_columns(const FieldDefinition& field, const base::JsonObject& members,
                                const std::string& path) {
  for (const auto& [name, value] : members) {
    if (find_field(field.columns, name) != nullptr) continue;
    refuse(path + "/" + base::pointer_token(name), RefusalCode::kUnknownField, shown_value(value),
           shown_names(field.columns));
  }
  for (const AtLeastOne& group : field.at_least_one) {
    bool found = false;
    for (const std::string& name : group.fields) {
      for (const auto& member : members) found = found || member.first == name;
    }
    if (found) continue;
    refuse(path + "/" + group.fields.front(), RefusalCode::kOneNeeded, "",
           shown_labels(group.fields, field.columns));
  }
}

}  // namespace benchwarden::forms
