#pragma once
// What he means when he names something of a job that was asked for. For job_talk only.
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/works/answer_words.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

/// The part meant by "the step", "long bed", "bed 2".
[[nodiscard]] std::optional<works::Name> part_called(std::string_view words,
                                                     const std::vector<works::Name>& names);

/// Keys of the questions about what he wants changed: "change box", "dates", "the door".
/// @param asked keys of the questions that were asked
/// @param part_keys by which each part was asked for
[[nodiscard]] works::Answer<std::vector<std::string>> keys_to_change(
    std::string_view words, const std::vector<std::string>& asked,
    const std::map<works::Name, std::string>& part_keys);

/// The word by which the question with that key can be named: "customer"; the key itself where there is none.
[[nodiscard]] std::string topic_of(std::string_view key);

/// Whether the short form asks it: not what is mostly as usual and can be told later.
[[nodiscard]] bool in_short_form(std::string_view key);

}  // namespace weatherstruck::desk
