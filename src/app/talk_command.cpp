#include "talk_command.h"

#include <istream>
#include <ostream>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::app {

base::Instant moment_in(const Arguments& arguments, const Setting& setting, const base::Zone& zone) {
  if (!arguments.now) return setting.machine_now;
  files::MomentRead read = files::read_moment(*arguments.now, zone);
  if (read.moment) return *read.moment;
  base::Fault fault = read.fault.value_or(base::Fault{});
  fault.place = "--now";
  throw UsageError(base::to_text(fault));
}

desk::Talk talk_over(const Setting& setting) {
  return {setting.in, setting.out, !setting.in_is_terminal};
}

void open_talk(const Setting& setting) {
  render::Page page;
  page.text(
      "Enter takes what stands in brackets; ? explains, back goes to the question before, quit leaves with "
      "nothing kept.");
  setting.out << page.str();
}

ExitCode not_through(const Setting& setting, desk::TalkEnd end) {
  setting.out << '\n';
  setting.err << (end == desk::TalkEnd::cut_off ? "The answers ended half way. Nothing is kept.\n"
                                                : "Left. Nothing is kept.\n");
  return ExitCode::failed;
}

void refuse_json(const Arguments& arguments, const std::string& command, const std::string& instead) {
  if (arguments.json) throw UsageError(command + " asks, and has no JSON. " + instead);
}

}  // namespace weatherstruck::app
