#pragma once
// A member of a part changed by a few words: "+3 courses", "gravel", "length 3.5 m". For job_alter only.
#include <string>
#include <variant>

#include "change_words.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/job_alter.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// @param rest the words behind the part's name
/// @param text the whole change as typed: the place of its fault
/// @pre the job has a part of that name
[[nodiscard]] std::variant<Alteration, base::Fault> change_member(works::Job& job, const works::Name& part,
                                                                  Words rest, const std::string& text);

/// That it is so already.
[[nodiscard]] base::Fault no_change(const std::string& text, const works::Name& part, const std::string& key,
                                    const std::string& now);

}  // namespace weatherstruck::files
