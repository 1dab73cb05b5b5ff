#pragma once
// What the commands that ask have in common.
#include "weatherstruck/app/command.h"
#include "weatherstruck/desk/talk.h"

namespace weatherstruck::app {

/// --now read by `zone`, or else the machine's clock. @throws UsageError
base::Instant moment_in(const Arguments& arguments, const Setting& setting, const base::Zone& zone);

/// A talk over the setting: answers from a file are written behind their questions.
desk::Talk talk_over(const Setting& setting);

/// How to answer, said before the first question.
void open_talk(const Setting& setting);

/// For a talk that did not go through: says that nothing was kept.
ExitCode not_through(const Setting& setting, desk::TalkEnd end);

/// @throws UsageError with --json, for a command that asks
void refuse_json(const Arguments& arguments, const std::string& command, const std::string& instead);

}  // namespace weatherstruck::app
