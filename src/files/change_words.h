#pragma once
// Words of a change of a job. For job_alter and member_change only.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace weatherstruck::files {

using Words = std::vector<std::string>;

/// In small letters, parted at spaces.
[[nodiscard]] Words words_in(std::string_view text);
/// Those of [from, to) with one character between.
[[nodiscard]] std::string joined(const Words& words, std::size_t from, std::size_t to, char between);
[[nodiscard]] std::string joined(const Words& words, char between = ' ');
/// "footing_depth" is "footing depth".
[[nodiscard]] std::string spaced(std::string key);
/// How changes are said, by example; a sentence.
[[nodiscard]] std::string change_example();

}  // namespace weatherstruck::files
