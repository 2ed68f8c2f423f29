#pragma once

#include <string>
#include <string_view>

namespace benchwarden::fuzz {

// Each takes any bytes and tells what was wrong with what came of them; "" when nothing was.
std::string book_fault(std::string_view input);
std::string calculate_fault(std::string_view input);
std::string data_file_fault(std::string_view input);
std::string export_fault(std::string_view input);
std::string form_fault(std::string_view input);
std::string http_fault(std::string_view input);
std::string json_fault(std::string_view input);
std::string leaf_fault(std::string_view input);
std::string pack_fault(std::string_view input);
std::string register_fault(std::string_view input);
std::string seal_fault(std::string_view input);

}  // namespace benchwarden::fuzz
