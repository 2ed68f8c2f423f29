#include <algorithm>
#include <array>
#include <utility>

#include "base/json.h"
#include "base/json_text.h"
#include "entries/leaf.h"

namespace benchwarden::entries {
namespace {

/// What a leaf holds is said once, below, to one of two: this one makes a tree of it, with members
/// as they are given.
class Tree {
 public:
  static constexpr bool kSorts = false;
  void null() { put(nullptr); }
  void boolean(bool value) { put(value); }
  void number(std::string token) { put(base::JsonNumber{std::move(token)}); }
  void string(std::string_view text) { put(text); }
  void name(std::string_view member) { open_.back().member = member; }
  void open_object() { open_.push_back({base::JsonObject{}, {}}); }
  void open_array() { open_.push_back({base::JsonArray{}, {}}); }
  void close_object() { close(); }
  void close_array() { close(); }
  base::Json take() { return std::move(root_); }

 private:
  struct Open {
    base::Json value;
    std::string_view member;
  };
  void put(base::Json value) {
    if (open_.empty()) {
      root_ = std::move(value);
    } else if (base::JsonArray* array = open_.back().value.array(); array != nullptr) {
      array->push_back(std::move(value));
    } else {
      open_.back().value.object()->emplace_back(open_.back().member, std::move(value));
    }
  }
  void close() {
    base::Json done = std::move(open_.back().value);
    open_.pop_back();
    put(std::move(done));
  }
  std::vector<Open> open_;
  base::Json root_;
};

/// And this one the canonical bytes.
class Bytes : public base::JsonText {
 public:
  Bytes() : JsonText(kUsualLeafBytes) {}
  static constexpr bool kSorts = true;

 private:
  static constexpr std::size_t kUsualLeafBytes = 1024;
};

/// An object of these items, each of which `put_item` writes with its name.
template <class Out, class Item, class NameOf, class PutItem>
void put_object(Out& out, const std::vector<Item>& items, NameOf name_of, PutItem put_item) {
  std::vector<const Item*> order;
  order.reserve(items.size());
  for (const Item& item : items) order.push_back(&item);
  if constexpr (Out::kSorts) {
    std::sort(order.begin(), order.end(), [&](const Item* a, const Item* b) {
      return base::utf16_less(name_of(*a), name_of(*b));
    });
  }
  out.open_object();
  for (const Item* item : order) {
    out.name(name_of(*item));
    put_item(*item);
  }
  out.close_object();
}

template <class Out>
struct PutValue {
  Out& out;
  void operator()(const quantities::Quantity& quantity) const {
    out.number(base::format_decimal(quantity.value));
  }
  void operator()(const Id& id) const { out.string(id.slug); }
  void operator()(const base::CivilDate& date) const { out.string(base::format_date(date)); }
  void operator()(const Code& code) const { out.string(code.slug); }
  void operator()(const Text& text) const { out.string(text.text); }
  void operator()(const List& list) const {
    out.open_array();
    for (const Record& record : list.rows) {
      put_object(
          out, record, [](const auto& column) -> const std::string& { return column.first; },
          [&](const auto& column) { std::visit(*this, column.second); });
    }
    out.close_array();
  }
};

template <class Out>
void put_fields(const Fields& fields, Out& out) {
  put_object(
      out, fields, [](const Field& field) -> const std::string& { return field.name; },
      [&](const Field& field) { std::visit(PutValue<Out>{out}, field.value); });
}

template <class Out>
void put_as_read(const std::vector<AsRead>& readings, Out& out) {
  put_object(
      out, readings, [](const AsRead& reading) -> const std::string& { return reading.field; },
      [&](const AsRead& reading) {
        out.open_object();
        out.name("unit");
        out.string(reading.unit);
        out.name("value");
        out.number(base::format_decimal(reading.value));
        out.close_object();
      });
}

template <class Out>
void put_attachments(const std::vector<std::string>& digests, Out& out) {
  out.open_array();
  for (const std::string& digest : digests) out.string(digest);
  out.close_array();
}

template <class Out, class T>
void put_integer(const std::optional<T>& value, Out& out) {
  value ? out.number(std::to_string(*value)) : out.null();
}

template <class Out>
void put_text(const std::optional<std::string>& value, Out& out) {
  value ? out.string(*value) : out.null();
}

template <class Out>
void put_id(const std::optional<base::Uuid>& value, Out& out) {
  value ? out.string(base::format_uuid(*value)) : out.null();
}

template <class Out>
struct Member {
  std::string_view name;
  void (*put)(const Entry& entry, Out& out);
};

/// In the order in which an entry is shown.
template <class Out>
constexpr std::array kShown{
    Member<Out>{"format", [](const Entry&, Out& o) { o.number(std::to_string(kLeafFormat)); }},
    Member<Out>{"seq", [](const Entry& e, Out& o) { o.number(std::to_string(e.seq)); }},
    Member<Out>{"id", [](const Entry& e, Out& o) { o.string(base::format_uuid(e.content.id)); }},
    Member<Out>{"kind", [](const Entry& e, Out& o) { o.string(e.content.kind); }},
    Member<Out>{"form_version",
                [](const Entry& e, Out& o) { o.number(std::to_string(e.content.form_version)); }},
    Member<Out>{
        "occurred_at",
        [](const Entry& e, Out& o) { o.string(base::format_rfc3339(e.content.occurred_at)); }},
    Member<Out>{"device_seq", [](const Entry& e, Out& o) { put_integer(e.content.device_seq, o); }},
    Member<Out>{"corrects", [](const Entry& e, Out& o) { put_id(e.content.corrects, o); }},
    Member<Out>{"reason", [](const Entry& e, Out& o) { put_text(e.content.reason, o); }},
    Member<Out>{"fields", [](const Entry& e, Out& o) { put_fields(e.content.fields, o); }},
    Member<Out>{"as_read", [](const Entry& e, Out& o) { put_as_read(e.content.as_read, o); }},
    Member<Out>{"attachments",
                [](const Entry& e, Out& o) { put_attachments(e.content.attachments, o); }},
    Member<Out>{"recorded_at",
                [](const Entry& e, Out& o) { o.string(base::format_rfc3339_utc(e.recorded_at)); }},
    Member<Out>{"person", [](const Entry& e, Out& o) { o.string(e.signature.person); }},
    Member<Out>{"person_verified",
                [](const Entry& e, Out& o) { o.boolean(e.signature.person_verified); }},
    Member<Out>{"device", [](const Entry& e, Out& o) { put_text(e.signature.device, o); }},
    Member<Out>{"clock_offset_ms",
                [](const Entry& e, Out& o) { put_integer(e.signature.clock_offset_ms, o); }},
};

/// In that of the leaf.
constexpr auto kSorted = [] {
  auto members = kShown<Bytes>;
  std::sort(members.begin(), members.end(),
            [](const auto& a, const auto& b) { return a.name < b.name; });
  return members;
}();

template <class Out, class Members>
void put_entry(const Entry& entry, const Members& members, Out& out) {
  out.open_object();
  for (const Member<Out>& member : members) {
    out.name(member.name);
    member.put(entry, out);
  }
  out.close_object();
}

}  // namespace

base::Json fields_json(const Fields& fields) {
  Tree tree;
  put_fields(fields, tree);
  return tree.take();
}

bool operator==(const Content& a, const Content& b) {
  return write_leaf({a, {}, 0, {}}) == write_leaf({b, {}, 0, {}});
}

base::Json entry_json(const Entry& entry) {
  Tree tree;
  put_entry(entry, kShown<Tree>, tree);
  return tree.take();
}

std::string write_leaf(const Entry& entry) {
  Bytes bytes;
  put_entry(entry, kSorted, bytes);
  return bytes.take();
}

}  // namespace benchwarden::entries
