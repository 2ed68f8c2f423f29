#include "workshop/random_entries.h"

#include <algorithm>

namespace benchwarden::workshop {
namespace {

constexpr std::int64_t kMinute = 60'000;

std::string shown(base::Instant instant) { return base::format_rfc3339_utc(instant); }

}  // namespace

base::Instant RandomEntries::moment() {
  const std::int64_t start = at("2026-09-15T00:00:00Z").ms;
  return {start + static_cast<std::int64_t>(pick(static_cast<std::uint64_t>(now_.ms - start)))};
}

/// Mostly a few minutes ago; now and then weeks.
std::string RandomEntries::when() {
  const auto days = static_cast<std::int64_t>(pick(6) == 0 ? 1 + pick(60) : 0);
  return shown({now_.ms - days * base::kDayMs - static_cast<std::int64_t>(pick(9)) * kMinute});
}

Told RandomEntries::transfer() {
  const std::string ends =
      R"({"from_container":")" + oil_container() + R"(","to_container":")" + oil_container() + "\"";
  if (pick(2) == 0) return tell("transfer", ends + "}", when());
  return tell("transfer", ends + R"(,"volume_ml":)" + text(9'000) + "}", when(),
              R"(,"confirmed":["volume_ml"])");
}

Told RandomEntries::rags() {
  const std::string bin = R"({"container":"bin","bin_act":)";
  switch (pick(3)) {
    case 0:
      return tell("rag-bin", bin + R"("added","contaminant":"solvent","mass_kg":)" + text(9) + "}",
                  when());
    case 1:
      return tell("rag-bin", bin + R"("emptied","emptied_into":"drum","mass_kg":)" + text(20) + "}",
                  when());
    default:
      return tell("rag-bin", bin + R"("checked-at-close","lid_shut":"yes"})", when());
  }
}

Told RandomEntries::handling() {
  const std::string act = one_of({"placed", "placed", "placed", "sealed", "emptied", "swapped"});
  return tell("container-change",
              R"({"container":")" + oil_container() + R"(","container_act":")" + act + "\"}",
              when());
}

Told RandomEntries::collection() {
  return tell("collection",
              R"({"collection":"c)" + text(999'999) +
                  R"(","stage":"taken","carrier":"k1","document_number":"N 1","loads":[)" +
                  R"({"container":"w1","volume_ml":)" + text(20'000) + R"(,"emptied":")" +
                  one_of({"yes", "no"}) + R"("},{"container":"drum","mass_kg":)" + text(20) + "}]}",
              when(), R"(,"confirmed":["loads/0/volume_ml","loads/1/mass_kg"])");
}

Told RandomEntries::inspection() {
  if (pick(2) == 0) {
    return tell(
        "cylinder-check",
        R"({"cylinder":")" + one_of({"n1", "n2"}) + R"(","gauge_pressure_bar":)" + text(200) + "}",
        when());
  }
  return tell("tool-inspection",
              R"({"inspected_class":"tool","tool":"r1","result":")" +
                  one_of({"in-service", "withdrawn"}) + "\"}",
              when());
}

Told RandomEntries::fresh() {
  switch (pick(12)) {
    case 0:
    case 1:
      return transfer();
    case 2:
      return tell("level-reading",
                  R"({"container":")" + oil_container() +
                      R"(","reading_method":"dip","volume_ml":)" + text(90'000) + "}",
                  when());
    case 3:
      return rags();
    case 4:
      return handling();
    case 5:
      return collection();
    case 6:
      return inspection();
    case 7:
      return tell("register-change",
                  R"({"thing_class":"container","thing":"w2","act":"changed","location":"Bay )" +
                      text(999) + "\"}",
                  when());
    default:
      return drain(oil_container(), text(5'000), when());
  }
}

/// Of any earlier entry, half of the time one of the last; changes what its kind has.
Told RandomEntries::correction() {
  const std::size_t back =
      pick(2) == 0 ? pick(std::min<std::size_t>(accepted_.size(), 8)) : pick(accepted_.size());
  const auto& [id, kind] = accepted_[accepted_.size() - 1 - back];
  if (pick(4) == 0) return strike_out(id, shown(now_));
  const auto changed = [&, entry = id](const std::string& fields) {
    return correct(entry, fields, shown(now_));
  };
  if (kind == "transfer") {
    if (pick(3) == 0) return changed(R"({"cleared":[{"cleared_field":"volume_ml"}]})");
    if (pick(2) == 0) return changed(R"({"to_container":")" + oil_container() + "\"}");
  }
  if (kind == "rag-bin") return changed(R"({"mass_kg":)" + text(20) + "}");
  if (kind == "cylinder-check") return changed(R"({"cylinder":"n2"})");
  if (kind == "tool-inspection") return changed(R"({"result":"in-service"})");
  if (kind == "container-change") return changed(R"({"container":")" + oil_container() + "\"}");
  if (kind == "register-change") return changed(R"({"location":"Rack )" + text(999) + "\"}");
  if (kind == "collection") return changed(R"({"document_number":"N )" + text(999) + "\"}");
  if (kind == "oil-drained" && pick(3) == 0) {
    return changed(R"({"container":")" + oil_container() + "\"}");
  }
  return changed(R"({"volume_ml":)" + text(5'000) + "}");
}

Told RandomEntries::next() { return !accepted_.empty() && pick(4) == 0 ? correction() : fresh(); }

void RandomEntries::send(int accepted) {
  for (int done = 0; done < accepted;) {
    now_.ms += static_cast<std::int64_t>(pick(40)) * kMinute;
    workshop_.clock.set(now_);
    const Told told = next();
    const Actor actor{pick(2) == 0 ? "p2" : "p1", "manager", pick(9) != 0};
    const auto outcome = workshop_.send(told, actor);
    if (!std::holds_alternative<Recorded>(outcome)) {
      ASSERT_TRUE(std::holds_alternative<Faults>(outcome)) << base::write_json(told.json);
      ++refused_;
      continue;
    }
    ++done;
    const std::string kind = *told.json.find("kind")->string();
    const bool struck = value_at(told.json, "fields/action") == "\"struck-out\"";
    if (struck) ++strikes_;
    if (kind == "correction" && !struck) ++corrections_;
    if (kind == "transfer" && value_at(told.json, "fields/volume_ml").empty()) ++whole_transfers_;
    if (at(*told.json.find("occurred_at")->string()).ms < now_.ms - base::kDayMs / 2) ++late_;
    if (kind != "correction") accepted_.emplace_back(told.id, kind);
  }
}

}  // namespace benchwarden::workshop
