#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "book/backup_files.h"
#include "book/book.h"
#include "book/new_folder.h"
#include "sqlite/folder_lock.h"

namespace benchwarden::book {

/// A data folder into which the files of a backup are put, and its lock meanwhile. They are copied
/// into a folder in it first, so that they can take their places whatever it is mounted on. A data
/// folder that was made for this is taken away again when it is given up before `place`.
class RestoredFolder {
 public:
  /// kUnavailable: another process has it open, or it cannot be written.
  static base::Result<RestoredFolder> begin(const std::filesystem::path& data_folder);
  RestoredFolder(RestoredFolder&&) noexcept = default;
  RestoredFolder& operator=(RestoredFolder&&) = delete;
  RestoredFolder(const RestoredFolder&) = delete;
  RestoredFolder& operator=(const RestoredFolder&) = delete;
  ~RestoredFolder() = default;

  /// Whether a book or people are there.
  [[nodiscard]] bool in_use() const;
  /// Where the copies lie until they are placed.
  [[nodiscard]] const std::filesystem::path& copies() const { return copies_.path(); }
  /// kDamaged: a file is not what `files` says of it.
  base::Status<> copy(const std::filesystem::path& backup, const FilesByName& files);
  /// Moves what is there into the new folder `aside` in it and the copies into their places; gives
  /// that folder, "" where nothing was there. The head first and the book last: a start in between
  /// finds a head without its book, and refuses.
  base::Result<std::filesystem::path> place(const std::string& aside);

 private:
  /// Taken away with the lock in it unless it was there before or is kept.
  class Made {
   public:
    Made(std::filesystem::path path, bool made) : path_(std::move(path)), made_(made) {}
    Made(Made&& other) noexcept
        : path_(std::move(other.path_)), made_(std::exchange(other.made_, false)) {}
    Made(const Made&) = delete;
    Made& operator=(const Made&) = delete;
    Made& operator=(Made&&) = delete;
    ~Made();
    void keep() { made_ = false; }

   private:
    std::filesystem::path path_;
    bool made_;
  };

  RestoredFolder(std::filesystem::path data, Made made, sqlite::FolderLock lock, NewFolder copies)
      : data_(std::move(data)),
        made_(std::move(made)),
        lock_(std::move(lock)),
        copies_(std::move(copies)) {}
  [[nodiscard]] std::vector<std::string> databases_there() const;
  base::Status<> move_aside(const std::filesystem::path& aside) const;

  std::filesystem::path data_;
  Made made_;  ///< outlives the lock and the copies
  sqlite::FolderLock lock_;
  NewFolder copies_;
  std::vector<std::string> copied_;
};

/// Whether the book in `folder` goes on from a head that was kept elsewhere. kDamaged where not.
base::Status<> check_goes_on(const std::filesystem::path& folder, const TreeHead& head);

}  // namespace benchwarden::book
