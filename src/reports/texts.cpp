#include "reports/texts.h"

#include "base/text.h"
#include "reports/number_text.h"

namespace benchwarden::reports {

std::string time_text(base::Timestamp time) {
  const std::string written = base::format_rfc3339(time);
  return written.substr(0, 10) + "\u00A0" + written.substr(11, 5);
}

std::string date_text(base::Timestamp time) { return base::format_rfc3339(time).substr(0, 10); }

std::string Texts::title(const std::string& path, std::string_view fallback) const {
  const auto found = frame_.forms.titles.find(path);
  return found == frame_.forms.titles.end() ? std::string(fallback) : found->second;
}

std::string Texts::person(const Person& person) const {
  const auto found = frame_.names.find(person.id);
  const std::string name = found == frame_.names.end() ? person.id : found->second;
  if (person.verified) return name;
  if (!person.answer) return wording_.text("word.unverified", {{"person", name}});
  if (person.answer->authorship == entries::Authorship::kNotMine) {
    return wording_.text("word.disowned", {{"person", name}});
  }
  return wording_.text("word.confirmed_later", {{"person", name}});
}

std::string Texts::kind(const std::string& kind) const { return title(kind, kind); }

std::string Texts::label(const std::string& path) const {
  return title(path, path.substr(path.rfind('/') + 1));
}

std::string Texts::quantity(const quantities::Quantity& quantity) const {
  const std::int64_t millionths = quantity.value.thousandths * 1'000;
  const std::string number = number_text(millionths, places_needed(millionths, 0));
  if (quantity.unit->symbol.empty()) return number;
  return wording_.text("word.value_and_unit",
                       {{"value", number}, {"unit", std::string(quantity.unit->symbol)}});
}

std::string Texts::scalar(const std::string& path, const entries::Scalar& value) const {
  if (const auto* amount = std::get_if<quantities::Quantity>(&value)) return quantity(*amount);
  if (const auto* date = std::get_if<base::CivilDate>(&value)) return base::format_date(*date);
  if (const auto* id = std::get_if<entries::Id>(&value)) return id->slug;
  if (const auto* code = std::get_if<entries::Code>(&value)) {
    return title(path + "/" + code->slug, code->slug);
  }
  return std::get<entries::Text>(value).text;
}

std::string Texts::list(const std::string& path, const entries::List& list) const {
  std::vector<std::string> rows;
  for (const entries::Record& row : list.rows) {
    std::vector<std::string> cells;
    for (const auto& [name, cell] : row) cells.push_back(scalar(path + "/" + name, cell));
    rows.push_back(base::join(cells, wording_.text("word.list_mark")));
  }
  return base::join(rows, wording_.text("word.row_mark"));
}

std::string Texts::value(const std::string& path, const entries::FieldValue& value) const {
  return std::visit(
      [&](const auto& inner) -> std::string {
        if constexpr (std::is_same_v<std::decay_t<decltype(inner)>, entries::List>) {
          return list(path, inner);
        } else {
          return scalar(path, inner);
        }
      },
      value);
}

std::string Texts::labelled(const std::string& path, const entries::FieldValue& field) const {
  return wording_.text("word.label_and_value",
                       {{"label", label(path)}, {"value", value(path, field)}});
}

std::string Texts::thing(const std::string& id, const std::string& name) const {
  if (name.empty()) return id;
  return wording_.text("word.id_and_name", {{"id", id}, {"name", name}});
}

std::string Texts::given(const std::string& path,
                         const std::optional<entries::FieldValue>& field) const {
  return field ? value(path, *field) : wording_.text("word.not_given");
}

std::string Texts::changed(const std::string& kind, const FieldChange& change) const {
  const std::string path = kind + "/" + change.field;
  return wording_.text("correction.change", {{"field", label(path)},
                                             {"before", given(path, change.before)},
                                             {"after", given(path, change.after)}});
}

std::string Texts::correction(const CorrectionFigures& correction) const {
  const ReportWording::Values who = {
      {"entry", count_text(correction.by.seq)},
      {"time", time_text(correction.by.recorded_at)},
      {"person", person(correction.by.person)},
      {"reason",
       correction.reason.empty() ? wording_.text("correction.no_reason") : correction.reason},
  };
  if (correction.struck) return wording_.text("correction.struck", who);
  std::vector<std::string> changes;
  for (const FieldChange& change : correction.changes) {
    changes.push_back(changed(correction.target.kind, change));
  }
  ReportWording::Values all = who;
  all.emplace_back("changes", base::join(changes, wording_.text("word.row_mark")));
  return wording_.text("correction.corrected", all);
}

}  // namespace benchwarden::reports
