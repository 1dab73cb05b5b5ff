#include <fmt/format.h>

#include <filesystem>
#include <ostream>
#include <string>
#include <system_error>

#include "commands.h"
#include "page_file.h"
#include "trip_command.h"
#include "weatherstruck/desk/export_desk.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::app {
namespace {

void write_tables(const std::string& folder, const std::vector<desk::NamedTable>& tables) {
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (failure) {
    throw base::InputError(folder, {{"unwritable", "", "the folder could not be made",
                                     "a folder that can be made", "Check the path and its rights."}});
  }
  for (const desk::NamedTable& table : tables)
    write_page((std::filesystem::path(folder) / table.name).string(), table.text);
}

ExitCode export_all(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) throw UsageError("A file has nothing beside itself to export. Name a job that is kept.");
  const base::Instant now = moment_of(arguments, setting, open.job);
  const auto folder = arguments.value("--csv");
  const auto file = arguments.value("--file");
  if (folder) write_tables(*folder, desk::export_tables(setting.shelf, open, now));
  if (!folder || file || arguments.json) {
    const std::string text = files::export_text(desk::export_job(setting.shelf, open, now));
    if (file) {
      write_page(*file, text);
    } else {
      setting.out << text;
    }
  }
  return ExitCode::ok;
}

}  // namespace

Command export_command() {
  return {
      {"export",
       "everything of a job, for other programmes",
       "Its documents, the site book with every correction, forecasts, the newest plan, calendar and "
       "invoices "
       "as one JSON document; with --csv the same as tables in a folder.",
       {{"JOB", "its name"}},
       false,
       {{"export shed --file shed.json", "one document"}, {"export shed --csv shed", "tables in a folder"}},
       {{"--file", "FILE", "write the document there instead of showing it", false, ""},
        {"--csv", "FOLDER", "write tables there, over those of before", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return export_all(arguments, setting); };
      }};
}

}  // namespace weatherstruck::app
