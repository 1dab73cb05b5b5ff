#include <ostream>

#include "commands.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::app {

Command job_blank_command() {
  return {{"job blank",
           "print a job to fill in",
           "A short document with a remark at each line. It reads without a fault as it stands, so the first "
           "fault "
           "you see is your own.",
           {},
           false,
           {{"job blank > shed.json", "begin a job"}}},
          [](const Arguments& arguments) -> Run {
            if (arguments.json)
              throw UsageError("job blank prints a job document, which is JSON already. Leave out --json.");
            return [](const Setting& setting) {
              setting.out << files::blank_job();
              return ExitCode::ok;
            };
          }};
}

}  // namespace weatherstruck::app
