#include "daemon/data_files.h"

#include <utility>

#include "daemon/embedded_files.h"
#include "daemon/text_file.h"

namespace benchwarden::daemon {

DataFileSet DataFileSet::embedded() {
  DataFileSet set;
  set.files_ = embedded_files();
  return set;
}

base::Result<DataFileSet, base::FileFaults> DataFileSet::from_folder(
    const std::filesystem::path& folder) {
  DataFileSet set;
  for (const base::DataFile& file : embedded_files()) {
    if (file.path.starts_with("app/")) {  // built, not written: there is no source to read it from
      set.files_.push_back(file);
      continue;
    }
    auto text = read_text_file(folder / file.path);
    if (!text) {
      return base::FileFaults{{(folder / file.path).string(), 0, text.error().detail}};
    }
    set.owned_.push_back(std::make_unique<std::string>(*std::move(text)));
    set.files_.push_back({file.path, *set.owned_.back()});
  }
  return set;
}

}  // namespace benchwarden::daemon
