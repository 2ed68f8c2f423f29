#include "book/persons.h"

#include "book/read_only.h"

namespace benchwarden::book {

base::Result<std::vector<std::string>> persons_in(const std::filesystem::path& folder) {
  std::vector<std::string> persons;
  auto connection = open_book(folder);
  if (!connection.ok()) {
    if (connection.error().code == base::ErrorCode::kNotFound) return persons;
    return connection.error();
  }
  auto query = connection->statement(
      "SELECT DISTINCT json_extract(said, '$.person') AS person FROM "
      "(SELECT CAST(leaf AS TEXT) AS said FROM entry) WHERE json_valid(said) ORDER BY person");
  if (!query.ok()) return query.error();
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) return row.error();
    if (!*row) return persons;
    persons.push_back((*query)->text(0));
  }
}

}  // namespace benchwarden::book
