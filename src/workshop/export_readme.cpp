#include "workshop/export_readme.h"

#include "forms/envelope_columns.h"
#include "forms/type_names.h"

namespace benchwarden::workshop {
namespace {

class ReadmeWriter {
 public:
  explicit ReadmeWriter(const ExportWording& wording) : wording_(wording) {}

  std::string run(const forms::Catalog& catalog) {
    for (const std::string& line : wording_.about) text_ += line + "\n";
    text_ += "\n" + wording_.all_tables + "\n";
    for (const std::string_view column : forms::kEnvelopeColumns) {
      line("  ", std::string(column), wording_.columns.at(std::string(column)));
    }
    for (const forms::Definition& definition : catalog.definitions()) {
      text_ += "\ntables/" + definition.kind + ".csv: " + definition.title + "\n";
      fields("  ", definition.fields);
    }
    return std::move(text_);
  }

 private:
  void line(const std::string& indent, const std::string& name, const std::string& meaning) {
    text_ += indent + name + ": " + meaning + "\n";
  }

  /// "Volume; mL; number", "Act; code: placed = Placed, sealed = Sealed"
  [[nodiscard]] std::string meaning(const forms::FieldDefinition& field) const {
    std::string text = field.label + "; ";
    if (field.unit != nullptr) text += std::string(field.unit->symbol) + "; ";
    text += wording_.types.at(std::string(forms::type_name(field.type)));
    std::string codes;
    for (const forms::CodeOption& option : field.options) {
      codes += (codes.empty() ? ": " : ", ") + option.code + " = " + option.label;
    }
    text += codes;
    return field.retired ? text + "; " + wording_.of_retired : text;
  }

  void fields(const std::string& indent, const std::vector<forms::FieldDefinition>& all) {
    for (const forms::FieldDefinition& field : all) {
      line(indent, field.name, meaning(field));
      fields(indent + "  ", field.columns);
    }
  }

  const ExportWording& wording_;
  std::string text_;
};

}  // namespace

std::string export_readme(const ExportWording& wording, const forms::Catalog& catalog) {
  return ReadmeWriter(wording).run(catalog);
}

}  // namespace benchwarden::workshop
