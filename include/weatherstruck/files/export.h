#pragma once
// JSON out, for the `--json` of commands: one object, its first member "schema", its faults in one shape.
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::files {

/// The version of every `--json` answer; it rises when a member changes its meaning or goes.
inline constexpr int export_schema_version = 1;

/// {"schema": "weatherstruck/KIND", "version": 1}; members are added behind. KIND such as "plan".
[[nodiscard]] Json export_document(std::string_view kind);

/// [{"code", "pointer", "found", "expected", "hint"}]; "line" too where `lines` knows it. The pointer is a
/// JSON pointer, or the fault's place as it is where that is none ("line 3, column 7", "--now").
[[nodiscard]] Json faults_to_json(const base::Faults& faults, const JsonLines& lines = {});

/// Text of the document, two spaces a level, newline at the end; bad UTF-8 becomes U+FFFD, never a throw.
[[nodiscard]] std::string export_text(const Json& document);

}  // namespace weatherstruck::files
