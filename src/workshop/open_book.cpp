#include "workshop/open_book.h"

#include <utility>

namespace benchwarden::workshop {

base::Result<std::unique_ptr<OpenBook>> OpenBook::open(const std::filesystem::path& folder,
                                                       const Definitions& definitions,
                                                       const base::Clock& clock,
                                                       const NameBook& names) {
  std::unique_ptr<OpenBook> open(new OpenBook);
  auto book = book::Book::open(folder, definitions.catalog, clock);
  if (!book) return book.error();
  open->book_ = *std::move(book);
  auto live = LiveState::start(*open->book_, definitions.catalog);
  if (!live) return live.error();
  open->live_ = *std::move(live);
  const auto zone = check_zone(*open->live_->view());
  if (!zone) return zone.error();
  open->packs_ = std::make_unique<PackShelf>(definitions.packs, *open->book_);
  open->ports_ =
      std::make_unique<Ports>(Ports{*open->book_, *open->live_, definitions, clock, names,
                                    open->admission_, open->costly_, *open->packs_, nullptr});
  return open;
}

}  // namespace benchwarden::workshop
