#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/render/me_sheet.h"

namespace weatherstruck::app {
namespace {

ExitCode show_document(const Setting& setting) {
  setting.out << files::write_me(desk::needed_me(setting.shelf, setting.zones).document);
  return ExitCode::ok;
}

ExitCode ask(const Arguments& arguments, const Setting& setting) {
  std::optional<desk::KeptMe> kept = desk::kept_me(setting.shelf, setting.zones);
  std::optional<files::MeDocument> before;
  if (kept) {
    before = kept->document;
    setting.out << render::me_sheet(before->me, before->rates, setting.ink) << '\n';
    desk::Talk first = talk_over(setting);
    bool change = false;
    const desk::TalkEnd end = first.run([&] {
      change = first.ask<bool>(
          {"change", "Change any of it?", "no", "yes asks again, with what is kept in the brackets."},
          works::yes_no_answer, false);
    });
    // No more input is no wish to change anything.
    if (end != desk::TalkEnd::through || !change) {
      setting.out << "\nAs it was.\n";
      return ExitCode::ok;
    }
  }
  open_talk(setting);
  desk::Talk talk = talk_over(setting);
  const desk::MeTalk answers = desk::ask_me(talk, before, setting.zones);
  if (!answers.document) return not_through(setting, answers.end);
  desk::keep_me(setting.shelf, *answers.document, setting.zones,
                moment_in(arguments, setting, answers.document->me.home_zone));
  setting.out << "\nKept. \"weatherstruck me\" shows it. Next: weatherstruck job ask\n";
  return ExitCode::ok;
}

}  // namespace

Command me_command() {
  return {
      {"me",
       "say who you are: name, kit, crew, pace, hours, charges",
       "Asked once and kept for every job; again, it shows what is kept and asks whether to change it. "
       "Enter takes what stands in brackets. Answers may come from a file, one a line, on standard input. "
       "With --json it prints what is kept.",
       {},
       false,
       {{"me", "be asked, once"}, {"me --json", "what is kept, as a document"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          return arguments.json ? show_document(setting) : ask(arguments, setting);
        };
      }};
}

}  // namespace weatherstruck::app
