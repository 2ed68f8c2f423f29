#include "daemon/data_files.h"

#include <fstream>
#include <iterator>

#include "daemon/embedded_files.h"

namespace benchwarden::daemon {

DataFileSet DataFileSet::embedded() {
  DataFileSet set;
  set.files_ = embedded_files();
  return set;
}

base::Result<DataFileSet> DataFileSet::from_folder(const std::filesystem::path& folder) {
  DataFileSet set;
  for (const base::DataFile& file : embedded_files()) {
    if (file.path.starts_with("app/")) {  // built, not written: there is no source to read it from
      set.files_.push_back(file);
      continue;
    }
    std::ifstream stream(folder / file.path, std::ios::binary);
    if (!stream) {
      return base::Error{base::ErrorCode::kNotFound,
                         "the data file " + (folder / file.path).string() + " cannot be read"};
    }
    set.owned_.push_back(std::make_unique<std::string>(std::istreambuf_iterator<char>(stream),
                                                       std::istreambuf_iterator<char>()));
    set.files_.push_back({file.path, *set.owned_.back()});
  }
  return set;
}

}  // namespace benchwarden::daemon
