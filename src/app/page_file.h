#pragma once
// A page written where the user said.
#include <string>

namespace weatherstruck::app {

/// @throws base::InputError "unwritable"
void write_page(const std::string& path, const std::string& bytes);

}  // namespace weatherstruck::app
