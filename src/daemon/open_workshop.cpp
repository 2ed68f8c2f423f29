#include "daemon/open_workshop.h"

#include <algorithm>
#include <iostream>
#include <utility>

#include "base/text.h"
#include "daemon/embedded_files.h"
#include "daemon/signing_key.h"
#include "workshop/sealing.h"
#include "workshop/upkeep.h"

namespace benchwarden::daemon {
namespace {

/// Names and roles from access.db. The book knows persons only by id.
class AccessNames : public workshop::NameBook {
 public:
  AccessNames(const access::Access& access, access::NamesShown shown)
      : access_(access), shown_(shown) {}
  [[nodiscard]] std::string display_name(std::string_view person) const override {
    const auto found = access_.person(person);
    return found ? access::shown_name(*found, shown_) : std::string(person);
  }
  [[nodiscard]] std::optional<std::string> active_role(std::string_view person) const override {
    const auto found = access_.person(person);
    if (!found || !found->active) return std::nullopt;
    return std::string(access::role_name(found->role));
  }

 private:
  const access::Access& access_;
  access::NamesShown shown_;
};

base::Result<DataFileSet, Exit> choose_files(const Options& options) {
  if (!options.data_files) return DataFileSet::embedded();
  auto files = DataFileSet::from_folder(*options.data_files);
  if (!files) {
    std::cerr << base::format_faults(files.error());
    return Exit::kBadData;
  }
  return *std::move(files);
}

/// What to do about a book that does not open.
base::Error with_way_out(base::Error error, const std::filesystem::path& folder) {
  if (error.code != base::ErrorCode::kDamaged) return error;
  error.detail = "the book in " + folder.string() + " is damaged: " + error.detail +
                 ". 'benchwarden verify' names what is wrong; 'benchwarden restore' puts a backup "
                 "in its place";
  return error;
}

}  // namespace

base::Status<Exit> make_folder(const std::filesystem::path& folder) {
  std::error_code no_folder;
  std::filesystem::create_directories(folder, no_folder);
  if (!no_folder) return base::Done{};
  return fail({base::ErrorCode::kUnavailable,
               "the data folder " + folder.string() + " cannot be made: " + no_folder.message()});
}

base::Status<Exit> must_hold(const std::filesystem::path& folder, const std::string& file) {
  std::error_code failure;
  if (std::filesystem::exists(folder / file, failure)) return base::Done{};
  std::string why = "holds no " + file;
  if (!std::filesystem::exists(folder, failure)) {
    why = "does not exist";
  } else if (!std::filesystem::is_directory(folder, failure)) {
    why = "is no folder";
  }
  return fail({base::ErrorCode::kUnavailable,
               folder.string() + " " + why + "; --data names the data folder of a workshop"});
}

base::Status<> must_lie_outside(const std::filesystem::path& data_folder,
                                const std::filesystem::path& target, const std::string& word) {
  const auto whole = [](const std::filesystem::path& path) {
    std::error_code failure;
    const auto found = std::filesystem::weakly_canonical(std::filesystem::absolute(path), failure);
    return found.has_filename() ? found : found.parent_path();
  };
  const std::filesystem::path data = whole(data_folder);
  const std::filesystem::path place = whole(target);
  if (std::mismatch(data.begin(), data.end(), place.begin(), place.end()).first != data.end()) {
    return base::Done{};
  }
  return base::Error{base::ErrorCode::kInvalid,
                     word + " " + target.string() +
                         " lies in the data folder; accepted: a folder "
                         "outside it, on another disk where there is one"};
}

void show_setup_code(const std::string& code) {
  std::cout << "Nobody is entered yet. Set-up code for the first manager: " << code << std::endl;
}

base::Status<> leave_out_book_ids(access::Access& access, const std::filesystem::path& folder) {
  const auto signers = workshop::persons_in_book(folder);
  if (!signers) return signers.error();
  return access.leave_out_ids(*signers);
}

Exit fail(const base::Error& error) {
  std::cerr << "benchwarden: " << base::one_line(error.detail) << "\n";
  switch (error.code) {
    case base::ErrorCode::kInvalid:
      return Exit::kUsage;
    case base::ErrorCode::kNotFound:
    case base::ErrorCode::kConflict:
    case base::ErrorCode::kForbidden:
      return Exit::kRefused;
    case base::ErrorCode::kDamaged:
      return Exit::kFaultsFound;
    case base::ErrorCode::kInternal:
      return Exit::kBadData;
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
    const Options& options, IfMissing if_missing, std::unique_ptr<base::Clock> clock) {
  std::unique_ptr<OpenWorkshop> workshop(new OpenWorkshop);
  workshop->clock_ = std::move(clock);
  auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  workshop->loaded_ = *std::move(loaded);

  const std::filesystem::path& folder = options.config.data_folder;
  const auto there =
      if_missing == IfMissing::kMake ? make_folder(folder) : must_hold(folder, "book.db");
  if (!there) return there.error();
  access::Settings settings;
  settings.show_setup_code = show_setup_code;
  auto access = access::Access::open(folder, *workshop->clock_, settings);
  if (!access) return fail(access.error());
  workshop->access_ = *std::move(access);
  workshop->names_ = std::make_unique<AccessNames>(*workshop->access_, options.config.names_shown);
  auto book = workshop::OpenBook::open(folder, workshop->loaded_->definitions, *workshop->clock_,
                                       *workshop->names_);
  if (!book) return fail(with_way_out(book.error(), folder));
  workshop->book_ = *std::move(book);
  const auto people = workshop->access_->people();
  if (!people) return fail(people.error());
  if (people->empty()) {
    const auto left_out = leave_out_book_ids(*workshop->access_, folder);
    if (!left_out) return fail(left_out.error());
  }
  return workshop;
}

base::Status<Exit> OpenWorkshop::take_signing_key(const Options& options) {
  const auto last = ports().book.last_checkpoint();
  if (!last) return fail(last.error());
  const auto last_key = *last ? std::optional((*last)->verifier_key) : std::nullopt;
  const auto key = open_signing_key(options.config.data_folder, last_key, options.new_key);
  if (!key) return fail(key.error());
  book_->sign_with(*key);
  if (options.new_key == NewKey::kRefuse || ports().book.head().size == 0) return base::Done{};
  // At once, so that the list of checkpoints shows from when on the other key signs.
  const auto sealed = workshop::seal_book(ports());
  if (!sealed) return fail(sealed.error());
  return base::Done{};
}

}  // namespace benchwarden::daemon
