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

/// Makes the folder and those above it, where they are missing. Says on standard error why not.
base::Status<Exit> make_folder(const std::filesystem::path& folder);
/// Whether `folder` holds `file`; says on standard error what is missing. For commands that look
/// at what is there: a mistyped --data must make nothing.
base::Status<Exit> must_hold(const std::filesystem::path& folder, const std::string& file);

/// kInvalid where `target`, as `word` named it, lies in the data folder: what takes that away would
/// take a copy in it, too.
base::Status<> must_lie_outside(const std::filesystem::path& data_folder,
                                const std::filesystem::path& target, const std::string& word);

/// Keeps the ids under which the book in `folder` was signed from being given to anybody else, as
/// they would be by an access.db that was made anew or put back from an old copy.
base::Status<> leave_out_book_ids(access::Access& access, const std::filesystem::path& folder);

/// Everything a command needs. Members are destroyed in reverse order.
class OpenWorkshop {
 public:
  enum class IfMissing { kRefuse, kMake };  ///< a folder without a book
  static base::Result<std::unique_ptr<OpenWorkshop>, Exit> open(const Options& options,
                                                                IfMissing if_missing,
                                                                std::unique_ptr<base::Clock> clock);
  OpenWorkshop(const OpenWorkshop&) = delete;
  OpenWorkshop& operator=(const OpenWorkshop&) = delete;
  ~OpenWorkshop() = default;

  /// Opens or makes the key that the book is signed with. Says on standard error why not.
  base::Status<Exit> take_signing_key(const Options& options);
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
