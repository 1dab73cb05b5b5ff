#include <algorithm>
#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "weatherstruck/desk/job_talk.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::app {

Command job_copy_command() {
  return {{"job copy",
           "keep the same job under another name, for another trip",
           "Asks when you leave and when you promised to be home. Deliveries move by as many days; "
           "appointments and the site book stay with the old job.",
           {{"JOB", "a kept job, or a file"}, {"NEW", "its new name"}},
           false,
           {{"job copy valley-shelter next-door", "the neighbour wants one too"}}},
          [](const Arguments& arguments) -> Run {
            refuse_json(arguments, "job copy", "\"job show JOB --json\" shows the job once it is kept.");
            return [arguments](const Setting& setting) {
              const std::string& said = arguments.positionals[1];
              const works::Name as = works::name_from(said);
              if (as != said) setting.out << "It is called " << as << ".\n";
              const desk::OpenJob open = setting.shelf.open(arguments.positionals[0], setting.zones);
              const std::vector<std::string> taken = setting.shelf.names();
              if (std::find(taken.begin(), taken.end(), as) != taken.end()) {
                throw base::InputError(as, {{"name-taken", "", "a job \"" + as + "\" is kept already",
                                             "a name that no kept job has", "Choose another name."}});
              }
              const base::Instant now = moment_in(arguments, setting, open.job.trip.home_zone);
              open_talk(setting);
              desk::Talk talk = talk_over(setting);
              const desk::JobTalk answers = desk::ask_copy(talk, open.job, as, now, setting.zones);
              if (!answers.job) return not_through(setting, answers.end);
              (void)setting.shelf.add(answers.document, as, setting.zones, now);
              setting.out << "\nKept as " << as << ". Next: weatherstruck plan " << as << '\n';
              return ExitCode::ok;
            };
          }};
}

}  // namespace weatherstruck::app
