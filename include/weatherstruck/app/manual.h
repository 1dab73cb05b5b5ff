#pragma once
// Help, man page and completion, all from the command table.
#include <string>

#include "weatherstruck/app/command.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::app {

/// `weatherstruck --help`.
[[nodiscard]] std::string overview(render::Ink ink);
/// `weatherstruck job check --help`.
[[nodiscard]] std::string help_for(const CommandRow& row, render::Ink ink);
/// docs/weatherstruck.1, in man(7) macros.
[[nodiscard]] std::string man_page();
/// docs/completion.bash.
[[nodiscard]] std::string bash_completion();

}  // namespace weatherstruck::app
