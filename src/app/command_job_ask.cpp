#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "weatherstruck/desk/job_talk.h"
#include "weatherstruck/desk/me_talk.h"

namespace weatherstruck::app {

Command job_ask_command() {
  return {
      {"job ask",
       "be asked for a job and keep it",
       "About fourteen matters: place, trip, what is to be built, the way in, who brings what. Enter takes "
       "what stands in brackets, back goes to the question before, quit leaves with nothing kept. What is "
       "mostly as usual is not asked (--all asks it) but listed at the end. At the "
       "end all is shown; \"change dates\", \"change bed\" and the like ask that again. Answers may come "
       "from a file, one a line, on standard input.",
       {},
       false,
       {{"job ask", "a new job in ten minutes"},
        {"job ask --all", "every question, those with a usual answer too"}},
       {{"--all", "", "ask everything: customer, price, merchant, hours of noise, strips too", false, ""}}},
      [](const Arguments& arguments) -> Run {
        refuse_json(arguments, "job ask", "\"job show JOB --json\" shows the job once it is kept.");
        return [arguments](const Setting& setting) {
          const desk::KeptMe me = desk::needed_me(setting.shelf, setting.zones);
          const base::Instant now = moment_in(arguments, setting, me.document.me.home_zone);
          open_talk(setting);
          desk::Talk talk = talk_over(setting);
          const desk::JobTalk answers = desk::ask_job(talk, me.document, now, setting.shelf.names(),
                                                      setting.zones, arguments.has("--all"));
          if (!answers.job) return not_through(setting, answers.end);
          const desk::OpenJob kept =
              setting.shelf.add(answers.document, answers.job->name, setting.zones, now);
          setting.out << "\nKept as " << kept.source << ". Next: weatherstruck plan " << kept.source << '\n';
          return ExitCode::ok;
        };
      }};
}

}  // namespace weatherstruck::app
