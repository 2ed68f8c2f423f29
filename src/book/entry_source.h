#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"
#include "base/uuid.h"
#include "entries/entry.h"

namespace benchwarden::book {

/// What an entry can be understood by: the entries it names, and the tree. The open book answers,
/// and so does a book that is only being read. Any call may answer kUnavailable when the disk
/// fails it, and kDamaged for what cannot be read.
class EntrySource {
 public:
  EntrySource(const EntrySource&) = delete;
  EntrySource& operator=(const EntrySource&) = delete;
  virtual ~EntrySource() = default;

  virtual base::Result<entries::Entry> entry(const base::Uuid& id) const = 0;
  /// Corrections that name this entry, in book order.
  virtual base::Result<std::vector<entries::Entry>> corrections_of(const base::Uuid& id) const = 0;
  /// The root the tree had at an earlier size, from the stored nodes. An error beyond the head.
  virtual base::Result<base::Sha256Digest> root_at(std::uint64_t size) const = 0;

 protected:
  EntrySource() = default;
};

}  // namespace benchwarden::book
