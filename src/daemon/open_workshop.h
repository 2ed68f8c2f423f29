#pragma once

#include <memory>

#include "access/access.h"
#include "base/clock.h"
#include "daemon/commands.h"
#include "daemon/data_files.h"
#include "workshop/open_book.h"

namespace benchwarden::daemon {

/// The data files and what they define.
struct LoadedDefinitions {
  DataFileSet files;
  workshop::Definitions definitions;
};
/// Prints every fault of every data file to standard error and returns kBadData, or the
/// definitions.
base::Result<std::unique_ptr<LoadedDefinitions>, Exit> load_definitions(const Options& options);

/// Everything a command needs. Members are destroyed in reverse order.
class OpenWorkshop {
 public:
  static base::Result<std::unique_ptr<OpenWorkshop>, Exit> open(const Options& options,
                                                                std::unique_ptr<base::Clock> clock);
  OpenWorkshop(const OpenWorkshop&) = delete;
  OpenWorkshop& operator=(const OpenWorkshop&) = delete;
  ~OpenWorkshop() = default;

  [[nodiscard]] const workshop::Ports& ports() const { return book_->ports(); }
  [[nodiscard]] access::Access& access() { return *access_; }
  [[nodiscard]] const DataFileSet& files() const { return loaded_->files; }

 private:
  OpenWorkshop() = default;
  std::unique_ptr<base::Clock> clock_;
  std::unique_ptr<LoadedDefinitions> loaded_;
  std::unique_ptr<access::Access> access_;
  std::unique_ptr<workshop::NameBook> names_;
  std::unique_ptr<workshop::OpenBook> book_;
};

/// Prints the code that makes the first manager, for the console.
void show_setup_code(const std::string& code);

/// One line on standard error, and the exit code that fits the error.
Exit fail(const base::Error& error);

}  // namespace benchwarden::daemon
