#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_jobs.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/render/me_sheet.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::app {
namespace {

ExitCode show_document(const Setting& setting) {
  setting.out << files::write_me(desk::needed_me(setting.shelf, setting.zones).document);
  return ExitCode::ok;
}

ExitCode keep_contact(const Arguments& arguments, const Setting& setting, const std::string& said) {
  const auto mail = desk::mail_answer(said);
  if (const auto* refused = std::get_if<works::Refused>(&mail))
    throw UsageError("--contact: found \"" + said + "\"; allowed: " + refused->allowed + ".");
  desk::KeptMe kept = desk::needed_me(setting.shelf, setting.zones);
  kept.document.me.contact = std::get<std::string>(mail);
  desk::keep_me(setting.shelf, kept.document, setting.zones,
                moment_in(arguments, setting, kept.document.me.home_zone));
  setting.out << (kept.document.me.contact.empty() ? "Kept: no mail address.\n"
                                                   : "Kept: " + kept.document.me.contact + "\n");
  return ExitCode::ok;
}

ExitCode put_into(const Arguments& arguments, const Setting& setting, const std::string& job) {
  if (desk::is_path(job))
    throw UsageError("--into takes a kept job. \"job add " + job + "\" keeps the one in the file.");
  const desk::KeptMe kept = desk::needed_me(setting.shelf, setting.zones);
  const bool changed = desk::put_into_job(setting.shelf, job, kept.document.me, setting.zones,
                                          moment_in(arguments, setting, kept.document.me.home_zone));
  setting.out << (changed
                      ? "Kept: " + job + " goes by your crew, kit, limits, mixes and hours as they are now.\n"
                      : job + " goes by them already.\n");
  return ExitCode::ok;
}

ExitCode ask(const Arguments& arguments, const Setting& setting) {
  std::optional<desk::KeptMe> kept = desk::kept_me(setting.shelf, setting.zones);
  std::optional<files::MeDocument> before;
  std::vector<std::string> only;
  if (kept) {
    before = kept->document;
    setting.out << render::me_sheet(before->me, before->rates, setting.ink) << '\n';
    desk::Talk first = talk_over(setting);
    using Keys = std::vector<std::string>;
    std::optional<Keys> change;  // none: leave it; empty: all of it
    const desk::TalkEnd end = first.run([&] {
      change = first.ask<std::optional<Keys>>(
          {"change", "Change any of it?", "no",
           "yes asks all of it again, with what is kept in the brackets; or say what to change, such as "
           "van."},
          [](std::string_view said) -> works::Answer<std::optional<Keys>> {
            const auto plain = works::yes_no_answer(said);
            if (const bool* yes = std::get_if<bool>(&plain))
              return *yes ? std::optional(Keys()) : std::nullopt;
            auto topics = desk::me_topics(said);
            if (auto* refused = std::get_if<works::Refused>(&topics)) return *refused;
            return std::optional(std::get<Keys>(topics));
          },
          std::optional<Keys>());
    });
    // No more input is no wish to change anything.
    if (end != desk::TalkEnd::through || !change) {
      setting.out << "\nAs it was.\n";
      return ExitCode::ok;
    }
    only = *change;
  }
  open_talk(setting);
  desk::Talk talk = talk_over(setting);
  // Answers out of a file are the same on every machine.
  const desk::MeTalk answers = desk::ask_me(talk, before, setting.zones, only, arguments.has("--all"),
                                            setting.in_is_terminal ? setting.machine_zone : std::string());
  if (!answers.document) return not_through(setting, answers.end);
  desk::keep_me(setting.shelf, *answers.document, setting.zones,
                moment_in(arguments, setting, answers.document->me.home_zone));
  render::Page page;
  page.gap();
  if (!before && !talk.unasked().empty()) {
    page.text("Left as usual: the clock of " + answers.document->me.home_zone.name() +
              ", limits and mixes usual there, no address, no charges.");
  }
  if (before) {
    page.text("Kept.");
    const std::vector<std::string> old =
        desk::jobs_unlike(setting.shelf, answers.document->me, setting.zones,
                          moment_in(arguments, setting, answers.document->me.home_zone));
    if (!old.empty()) {
      page.text("Kept jobs go by what you had when they were asked for: " + base::join_and(old) +
                ". \"weatherstruck me --into " + old.front() + "\" puts what you have now into it.");
    }
  } else {
    page.text("Kept. \"weatherstruck me\" shows it and takes changes. Next: weatherstruck job ask");
  }
  setting.out << page.str();
  return ExitCode::ok;
}

}  // namespace

Command me_command() {
  return {
      {"me",
       "say who you are: name, kit, crew, pace, hours, charges",
       "Asked once and kept for every job; again, it shows what is kept and asks what to change: all of it, "
       "or "
       "what you name, such as van. "
       "Enter takes what stands in brackets. Answers may come from a file, one a line, on standard input. "
       "With --json it prints what is kept.",
       {},
       false,
       {{"me", "be asked, once"},
        {"me --all", "be asked everything, charges too"},
        {"me --contact name@example.org", "the mail address alone"},
        {"me --into shed", "a kept job goes by your crew, kit and hours as they are now"},
        {"me --json", "what is kept, as a document"}},
       {{"--all", "", "ask a newcomer everything: address, limits, mixes, charges too", false, ""},
        {"--contact", "MAIL", "keep this mail address for the weather services; ask nothing", false, ""},
        {"--into", "JOB",
         "put your crew, kit, limits, mixes and hours into a kept job; comments in its document are lost",
         false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          if (const auto mail = arguments.value("--contact")) return keep_contact(arguments, setting, *mail);
          if (const auto job = arguments.value("--into")) return put_into(arguments, setting, *job);
          return arguments.json ? show_document(setting) : ask(arguments, setting);
        };
      }};
}

}  // namespace weatherstruck::app
