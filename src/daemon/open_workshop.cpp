#include "daemon/open_workshop.h"

#include <iostream>
#include <utility>

#include "daemon/embedded_files.h"

namespace benchwarden::daemon {
namespace {

/// Names from access.db. The book knows persons only by id.
class AccessNames : public workshop::NameBook {
 public:
  explicit AccessNames(const access::Access& access) : access_(access) {}
  [[nodiscard]] std::string display_name(std::string_view person) const override {
    const auto found = access_.person(person);
    return found && !found->name.empty() ? found->name : std::string(person);
  }

 private:
  const access::Access& access_;
};

base::Result<DataFileSet, Exit> choose_files(const Options& options) {
  if (!options.data_files) return DataFileSet::embedded();
  auto files = DataFileSet::from_folder(*options.data_files);
  if (!files) return fail(files.error());
  return *std::move(files);
}

}  // namespace

void show_setup_code(const std::string& code) {
  std::cout << "Nobody is entered yet. Set-up code for the first manager: " << code << std::endl;
}

Exit fail(const base::Error& error) {
  std::cerr << "benchwarden: " << error.detail << "\n";
  switch (error.code) {
    case base::ErrorCode::kInvalid:
      return Exit::kUsage;
    case base::ErrorCode::kNotFound:
    case base::ErrorCode::kConflict:
    case base::ErrorCode::kForbidden:
      return Exit::kRefused;
    case base::ErrorCode::kDamaged:
      return Exit::kFaultsFound;
    case base::ErrorCode::kUnavailable:
      return Exit::kUnavailable;
  }
  return Exit::kUnavailable;
}

base::Result<std::unique_ptr<LoadedDefinitions>, Exit> load_definitions(const Options& options) {
  auto files = choose_files(options);
  if (!files) return files.error();
  auto definitions = workshop::load_definitions(
      files->all(), embedded_font(),
      files->is_embedded() ? workshop::FileOrigin::kBuiltIn : workshop::FileOrigin::kFolder);
  if (!definitions) {
    std::cerr << base::format_faults(definitions.error());
    return Exit::kBadData;
  }
  return std::make_unique<LoadedDefinitions>(
      LoadedDefinitions{*std::move(files), *std::move(definitions)});
}

base::Result<std::unique_ptr<OpenWorkshop>, Exit> OpenWorkshop::open(
    const Options& options, std::unique_ptr<base::Clock> clock) {
  std::unique_ptr<OpenWorkshop> workshop(new OpenWorkshop);
  workshop->clock_ = std::move(clock);
  auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  workshop->loaded_ = *std::move(loaded);

  const std::filesystem::path& folder = options.config.data_folder;
  std::error_code no_folder;
  std::filesystem::create_directories(folder, no_folder);
  if (no_folder) {
    return fail({base::ErrorCode::kUnavailable,
                 "the data folder " + folder.string() + " cannot be made: " + no_folder.message()});
  }
  access::Settings settings;
  settings.show_setup_code = show_setup_code;
  auto access = access::Access::open(folder, *workshop->clock_, settings);
  if (!access) return fail(access.error());
  workshop->access_ = *std::move(access);
  workshop->names_ = std::make_unique<AccessNames>(*workshop->access_);
  auto book = workshop::OpenBook::open(folder, workshop->loaded_->definitions, *workshop->clock_,
                                       *workshop->names_);
  if (!book) return fail(book.error());
  workshop->book_ = *std::move(book);
  return workshop;
}

}  // namespace benchwarden::daemon
