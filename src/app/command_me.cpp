#include <ostream>

#include "commands.h"
#include "talk_command.h"
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
  const desk::MeTalk answers = desk::ask_me(talk, before, setting.zones, only, arguments.has("--all"));
  if (!answers.document) return not_through(setting, answers.end);
  desk::keep_me(setting.shelf, *answers.document, setting.zones,
                moment_in(arguments, setting, answers.document->me.home_zone));
  render::Page page;
  page.gap();
  if (!talk.unasked().empty()) {
    page.text(
        "Left as usual: no address on invoices, the limits, mortar and concrete usual there, no charges yet. "
        "\"weatherstruck me\" shows it all and takes \"charges\", \"mixes\" and the like.");
  }
  page.text("Kept. \"weatherstruck me\" shows it. Next: weatherstruck job ask");
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
        {"me --json", "what is kept, as a document"}},
       {{"--all", "", "ask a newcomer everything: address, limits, mixes, charges too", false, ""},
        {"--contact", "MAIL", "keep this mail address for the weather services; ask nothing", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          if (const auto mail = arguments.value("--contact")) return keep_contact(arguments, setting, *mail);
          return arguments.json ? show_document(setting) : ask(arguments, setting);
        };
      }};
}

}  // namespace weatherstruck::app
