#include "tallies/fields_bytes.h"

#include <utility>
#include <variant>

#include "base/civil_date.h"
#include "quantities/units.h"

namespace benchwarden::tallies {
namespace {

using entries::FieldType;

class ValueWriter {
 public:
  explicit ValueWriter(ByteWriter& writer) : writer_(writer) {}

  void operator()(const quantities::Quantity& quantity) {
    tag(FieldType::kQuantity);
    writer_.signed_number(quantity.value.thousandths);
    writer_.text(quantity.unit == nullptr ? std::string_view() : quantity.unit->id);
  }
  void operator()(const entries::Id& id) { tagged_text(FieldType::kId, id.slug); }
  void operator()(const entries::Code& code) { tagged_text(FieldType::kCode, code.slug); }
  void operator()(const entries::Text& text) { tagged_text(FieldType::kText, text.text); }
  void operator()(const base::CivilDate& date) {
    tagged_text(FieldType::kDate, base::format_date(date));
  }
  void operator()(const entries::List& list) {
    tag(FieldType::kList);
    writer_.number(list.rows.size());
    for (const entries::Record& record : list.rows) {
      writer_.number(record.size());
      for (const auto& [name, scalar] : record) {
        writer_.text(name);
        std::visit(*this, scalar);
      }
    }
  }

 private:
  void tag(FieldType type) { writer_.number(static_cast<std::uint64_t>(type)); }
  void tagged_text(FieldType type, std::string_view text) {
    tag(type);
    writer_.text(text);
  }
  ByteWriter& writer_;
};

quantities::Quantity next_quantity(ByteReader& reader) {
  const std::int64_t value = reader.signed_number_within(base::kDecimalThousandthsMax);
  const quantities::Unit* known = quantities::find_unit(reader.view());
  if (known == nullptr) reader.fail();
  return {base::Decimal{value}, known};
}

base::CivilDate next_date(ByteReader& reader) {
  const auto date = base::parse_date(reader.view());
  if (date.ok()) return *date;
  reader.fail();
  return {};
}

FieldType read_tag(ByteReader& reader) {
  return static_cast<FieldType>(reader.number_up_to(static_cast<std::uint64_t>(FieldType::kList)));
}

/// Any value but a list.
entries::Scalar read_scalar(ByteReader& reader, FieldType type) {
  switch (type) {
    case FieldType::kQuantity:
      return next_quantity(reader);
    case FieldType::kId:
      return entries::Id{reader.text()};
    case FieldType::kDate:
      return next_date(reader);
    case FieldType::kCode:
      return entries::Code{reader.text()};
    case FieldType::kText:
      return entries::Text{reader.text()};
    case FieldType::kList:
      break;
  }
  reader.fail();
  return entries::Text{};
}

entries::List read_list(ByteReader& reader) {
  entries::List list;
  const std::size_t rows = reader.count();
  for (std::size_t i = 0; i < rows && !reader.failed(); ++i) {
    entries::Record record;
    const std::size_t columns = reader.count();
    for (std::size_t j = 0; j < columns && !reader.failed(); ++j) {
      std::string name = reader.text();
      const FieldType type = read_tag(reader);
      record.emplace_back(std::move(name), read_scalar(reader, type));
    }
    list.rows.push_back(std::move(record));
  }
  return list;
}

entries::FieldValue read_value(ByteReader& reader) {
  const FieldType type = read_tag(reader);
  if (type == FieldType::kList) return read_list(reader);
  const auto as_value = [](auto&& scalar) {
    return entries::FieldValue(std::forward<decltype(scalar)>(scalar));
  };
  return std::visit(as_value, read_scalar(reader, type));
}

/// Any value but a list: all others end in a text.
void skip_scalar(ByteReader& reader, FieldType type) {
  if (type == FieldType::kQuantity) reader.signed_number();
  reader.view();
}

void skip_value(ByteReader& reader, FieldType type) {
  if (type != FieldType::kList) return skip_scalar(reader, type);
  for (std::size_t rows = reader.count(); rows > 0 && !reader.failed(); --rows) {
    for (std::size_t columns = reader.count(); columns > 0 && !reader.failed(); --columns) {
      reader.view();
      skip_scalar(reader, read_tag(reader));
    }
  }
}

/// Goes to the value of a field. Its type; none where it is not there.
std::optional<FieldType> find_value(ByteReader& reader, std::string_view name) {
  for (std::size_t left = reader.count(); left > 0 && !reader.failed(); --left) {
    const bool found = reader.view() == name;
    const FieldType type = read_tag(reader);
    if (found) return type;
    skip_value(reader, type);
  }
  return std::nullopt;
}

}  // namespace

void write_fields(ByteWriter& writer, const entries::Fields& fields) {
  writer.number(fields.size());
  for (const entries::Field& field : fields) {
    writer.text(field.name);
    std::visit(ValueWriter(writer), field.value);
  }
}

entries::Fields read_fields(ByteReader& reader) {
  entries::Fields fields;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    std::string name = reader.text();
    fields.push_back({std::move(name), read_value(reader)});
  }
  return fields;
}

bool has_field(ByteReader reader, std::string_view name) {
  return find_value(reader, name).has_value();
}

std::string_view read_word(ByteReader reader, std::string_view name) {
  const auto type = find_value(reader, name);
  const bool worded =
      type == FieldType::kId || type == FieldType::kCode || type == FieldType::kText;
  return worded ? reader.view() : std::string_view();
}

std::optional<quantities::Quantity> read_quantity(ByteReader reader, std::string_view name) {
  if (find_value(reader, name) != FieldType::kQuantity) return std::nullopt;
  return next_quantity(reader);
}

std::optional<base::Decimal> read_decimal(ByteReader reader, std::string_view name,
                                          std::string_view unit) {
  if (find_value(reader, name) != FieldType::kQuantity) return std::nullopt;
  const base::Decimal value{reader.signed_number()};
  return reader.view() == unit ? std::optional(value) : std::nullopt;
}

std::optional<base::CivilDate> read_date(ByteReader reader, std::string_view name) {
  if (find_value(reader, name) != FieldType::kDate) return std::nullopt;
  return next_date(reader);
}

}  // namespace benchwarden::tallies
