#include <ostream>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::app {

Command job_show_command() {
  return {
      {"job show",
       "the document of a kept job, to be looked at or changed",
       "As it was kept, comments and all; with --json every member written out. Change it in a file and put "
       "it back with \"job add FILE --replace\".",
       {{"JOB", "its name, or a file"}},
       false,
       {{"job show shed", "to see what was asked and what was taken as usual"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
          setting.out << (arguments.json ? files::write_job(open.job) : open.document);
          return ExitCode::ok;
        };
      }};
}

}  // namespace weatherstruck::app
