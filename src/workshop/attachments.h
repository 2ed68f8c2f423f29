#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

#include "base/json.h"
#include "base/sha256.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// A file that was sent in and may now be named by an entry.
struct TakenIn {
  base::Sha256Digest digest{};
  std::string_view media_type;
  std::size_t bytes = 0;
  bool already_there = false;
};
/// Told by its content, whatever it is called. kInvalid: no whole PDF, JPEG or PNG of 5 MB or less;
/// kUnavailable: too many files wait for an entry that names them.
base::Result<TakenIn> take_in(const Ports& ports, const std::string& bytes);

struct AttachedFile {
  std::string bytes;
  std::string_view media_type;
  std::string name;  ///< to be saved under
};
/// kNotFound: no entry names it, or it is an issued report, which has an address and readers of its
/// own; kDamaged.
base::Result<AttachedFile> attached_file(const Ports& ports, const base::Sha256Digest& digest);

/// Whether an entry of a kind that is `shown`, or a correction of one, names the file. Reads
/// through all corrections and all entries of those kinds that may carry files.
base::Result<bool> is_named(const Ports& ports, const base::Sha256Digest& digest,
                            const std::function<bool(std::string_view kind)>& shown);

/// [{"digest", "media_type", "bytes"}]: what an entry's own attachments are; one that is missing in
/// the book is left out.
base::Result<base::Json> attached_json(const Ports& ports, const entries::Entry& entry);

}  // namespace benchwarden::workshop
