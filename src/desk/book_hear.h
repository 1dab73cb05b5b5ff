#pragma once
// What the hearing of the site book shares with its keeping.
#include <optional>
#include <string>

#include "weatherstruck/works/book.h"

namespace weatherstruck::desk {

/// @param when a moment or a day, in words of its own
[[nodiscard]] works::EntryKey key_for(const works::What& what, const std::string& when,
                                      const std::optional<works::EntryKey>& corrects);
/// A sentence that shows an entry back, without the question at its end.
[[nodiscard]] std::string without_asking(std::string sentence);

}  // namespace weatherstruck::desk
