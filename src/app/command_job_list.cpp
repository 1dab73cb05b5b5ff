#include <ostream>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::app {

Command job_list_command() {
  return {{"job list",
           "the jobs that are kept",
           "Name, title, when the trip begins and how many lines its site book has.",
           {},
           false,
           {{"job list", "when the name has slipped"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              std::vector<desk::OpenJob> jobs;
              for (const std::string& name : setting.shelf.names())
                jobs.push_back(setting.shelf.open(name, setting.zones));
              return answer(
                  arguments, setting,
                  [&] {
                    files::Json document = files::export_document("jobs");
                    document["jobs"] = files::Json::array();
                    for (const desk::OpenJob& open : jobs) {
                      document["jobs"].push_back({{"name", open.job.name},
                                                  {"title", open.job.title},
                                                  {"leave_home", base::iso_utc(open.job.trip.leave_home)},
                                                  {"home_by", base::iso_utc(open.job.trip.home_by)},
                                                  {"entries", open.book.size()}});
                    }
                    return document;
                  },
                  [&] {
                    render::Page page(setting.ink);
                    if (jobs.empty()) {
                      page.text(
                          "No job is kept yet. \"weatherstruck job ask\" asks for one, \"job add FILE\" "
                          "keeps one from a file.");
                      return page.str();
                    }
                    render::Table table({{"Job"},
                                         {"Leaves"},
                                         {"Home by"},
                                         {"What", render::Table::Kind::wrapped},
                                         {"Book", render::Table::Kind::right}});
                    for (const desk::OpenJob& open : jobs) {
                      const base::Zone& home = open.job.trip.home_zone;
                      table.add({open.job.name, base::day_and_time(home.to_local(open.job.trip.leave_home)),
                                 base::day_and_time(home.to_local(open.job.trip.home_by)), open.job.title,
                                 std::to_string(open.book.size())});
                    }
                    page.table(table, 0);
                    return page.str();
                  });
            };
          }};
}

}  // namespace weatherstruck::app
