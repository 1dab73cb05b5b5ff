#include "weatherstruck/app/program.h"

#include <exception>
#include <new>
#include <ostream>

#include "weatherstruck/app/answers.h"
#include "weatherstruck/app/command_line.h"
#include "weatherstruck/app/manual.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/record/daily_copy.h"
#include "weatherstruck/render/fault_list.h"

namespace weatherstruck::app {
namespace {

void tell(const base::InputError& error, std::ostream& err) {
  render::LineOf line_of;
  if (const auto* refused = dynamic_cast<const desk::JobRefused*>(&error)) {
    line_of = [refused](const std::string& place) { return files::line_of(refused->lines(), place); };
  }
  err << render::fault_list(error.source(), error.faults(), line_of);
}

// The day's copy, once the answer has been said. That there is none is no reason to fail: what was asked is
// done.
void keep_copy(desk::Shelf& shelf, base::Instant now, const Surroundings& around) {
  if (shelf.opened() == nullptr || !shelf.opened()->wrote()) return;
  try {
    around.out.flush();
    record::keep_daily_copy(shelf.store(), now);
  } catch (const record::RecordError& error) {
    around.err << "weatherstruck: what was asked is done and kept, but no copy of the record could be made: "
               << error.what() << '\n';
    if (error.kind() == record::RecordError::Kind::corrupt)
      around.err << record::way_back(shelf.store().path()) << '\n';
  }
}

void tell(const record::RecordError& error, const Surroundings& around) {
  using Kind = record::RecordError::Kind;
  const bool damaged = error.kind() == Kind::corrupt || error.kind() == Kind::not_ours;
  if (damaged && around.record_file && error.path() == around.record_file()) {
    around.err << "weatherstruck: " << error.path().string() << ": " << error.found() << ". "
               << record::way_back(error.path()) << '\n';
  } else {
    around.err << "weatherstruck: " << error.what() << '\n';
  }
}

ExitCode run(const Request& request, const Surroundings& around, render::Ink ink) {
  const files::SystemZones zones;
  switch (request.kind) {
    case Request::Kind::help:
      around.out << (request.command != nullptr ? help_for(request.command->row, ink) : overview(ink));
      return ExitCode::ok;
    case Request::Kind::version:
      around.out << "weatherstruck " << around.version << ", time zones " << zones.version() << '\n';
      return ExitCode::ok;
    case Request::Kind::man_page:
      around.out << man_page();
      return ExitCode::ok;
    case Request::Kind::completion:
      around.out << bash_completion();
      return ExitCode::ok;
    case Request::Kind::run:
      break;
  }
  const Run work = request.command->setup(request.arguments);
  try {
    const base::Instant now = around.now();
    desk::Shelf shelf(around.record_file, now);
    const ExitCode code =
        work(Setting{around.out, around.err, ink, now, zones, around.in, around.in_is_terminal, shelf,
                     around.version, around.network, around.machine_zone});
    keep_copy(shelf, now, around);
    return code;
  } catch (const base::InputError& error) {
    if (request.arguments.json) around.out << files::export_text(faults_answer(error));
    tell(error, around.err);
    return ExitCode::invalid;
  }
}

}  // namespace

ExitCode run_program(const std::vector<std::string>& words, const Surroundings& around) {
  ExitCode code = ExitCode::failed;
  try {
    const Request request = read_command_line(words);
    const bool bold = around.out_is_terminal && !around.plain_terminal && !request.arguments.no_color;
    code = run(request, around, bold ? render::Ink::bold : render::Ink::plain);
  } catch (const UsageError& error) {
    render::Page page;
    page.text(std::string("weatherstruck: ") + error.what());
    around.err << page.str();
    code = ExitCode::usage;
  } catch (const std::bad_alloc&) {
    around.err << "weatherstruck: out of memory\n";
  } catch (const record::RecordError& error) {
    tell(error, around);
  } catch (const std::exception& error) {
    around.err << "weatherstruck: " << error.what() << '\n';
  }
  around.out.flush();
  if (!around.out) {
    around.err << "weatherstruck: the output could not be written\n";
    if (code == ExitCode::ok) code = ExitCode::failed;
  }
  return code;
}

}  // namespace weatherstruck::app
