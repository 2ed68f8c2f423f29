#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "book/book_fixture.h"
#include "workshop/open_book.h"
#include "workshop/project_files.h"
#include "workshop/record.h"

namespace benchwarden::workshop {

inline const Actor kManager{"p1", "manager", true};
inline const Actor kOtherManager{"p2", "manager", true};
inline const Actor kTechnician{"p3", "technician", true};
inline const Actor kInspector{"p4", "inspector", true};

/// The moment at which the clock of every workshop stands until it is set.
inline constexpr const char* kNow = "2026-11-20T12:00:00Z";
base::Instant at(std::string_view rfc3339);

/// Knows the name of Bench A, who is p3, and of nobody else.
class FewNames : public NameBook {
 public:
  [[nodiscard]] std::string display_name(std::string_view person) const override {
    return person == "p3" ? "Bench A" : std::string(person);
  }
  [[nodiscard]] std::optional<std::string> active_role(std::string_view person) const override {
    for (const Actor& one : {kManager, kOtherManager, kTechnician, kInspector}) {
      if (one.person == person) return one.role;
    }
    return std::nullopt;
  }
};

/// A submission under an id of its own.
struct Told {
  std::string id;
  base::Json json;
};
/// From here on submissions get the same ids as in a program just started, so that equal books are
/// equal byte by byte.
void give_ids_anew();
/// `more` is further members with their leading comma.
Told tell(const std::string& kind, const std::string& fields, const std::string& occurred_at = kNow,
          const std::string& more = "");
Told correct(const std::string& target, const std::string& fields,
             const std::string& occurred_at = kNow);
Told strike_out(const std::string& target, const std::string& occurred_at = kNow);
Told drain(const std::string& container, const std::string& volume_ml,
           const std::string& occurred_at = kNow);
/// The same submission with its id replaced.
Told under_id(const Told& told, const std::string& id);

/// The receipt; the test fails with what was said instead.
book::Receipt receipt_of(const RecordOutcome& outcome);
/// "/fields/volume_ml impossible" for each fault; empty when there is none.
std::vector<std::string> faults_of(const RecordOutcome& outcome);

/// What stands at "levels/0/volume_ml", as compact JSON; "" where nothing does.
std::string value_at(const base::Json& json, const std::string& path);
/// Parses what is to be JSON.
base::Json parsed(const std::string& text);

/// A workshop with a book in a folder of its own. In its register from the start (eleven entries):
/// the site in Berlin's zone; streams oil (870 kg/m³) and rags; containers w1, w2 (205 L, 90 %),
/// bin and drum for rags; cylinders n1, n2; tool r1; carrier k1.
class TestWorkshop {
 public:
  enum class Register { kEntered, kEmpty };
  explicit TestWorkshop(Register filled = Register::kEntered,
                        const Definitions& definitions = real_definitions());

  void open();
  void close() { open_.reset(); }
  [[nodiscard]] const Ports& ports() const { return open_->ports(); }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }
  [[nodiscard]] std::uint64_t size() const { return ports().book.head().size; }

  RecordOutcome send(const Told& told, const Actor& actor = kManager) const {
    return record(ports(), actor, told.json);
  }
  /// Sends what must be accepted; returns its id.
  std::string enter(const Told& told, const Actor& actor = kManager) const;
  /// One container's object of the levels, as they are now.
  [[nodiscard]] base::Json level(const std::string& container) const;
  [[nodiscard]] std::string volume_ml(const std::string& container) const {
    return value_at(level(container), "volume_ml");
  }

  testing::SettableClock clock;

 private:
  void enter_register() const;

  testing::TemporaryFolder folder_;
  FewNames names_;
  const Definitions& definitions_;
  std::unique_ptr<OpenBook> open_;
};

}  // namespace benchwarden::workshop
