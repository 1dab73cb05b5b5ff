#pragma once
// Whole files of words, with every way in which that can fail told.
#include <filesystem>
#include <string>
#include <string_view>

namespace weatherstruck::desk {

/// At most `most` bytes and one more, so that a reader can see that there is more.
/// @param expected what the file should be, "a job document", for the fault
/// @throws base::InputError "no-such-file", "not-a-file", "unreadable"
[[nodiscard]] std::string text_of_file(const std::filesystem::path& path, std::string_view expected,
                                       std::size_t most = std::size_t{1} << 20);

}  // namespace weatherstruck::desk
