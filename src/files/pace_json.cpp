#include "weatherstruck/files/pace_json.h"

#include <chrono>
#include <string>

#include "weatherstruck/trade/operations.h"

namespace weatherstruck::files {

Json timed_json(std::span<const works::TimedWork> timed) {
  Json list = Json::array();
  for (const works::TimedWork& one : timed) {
    list.push_back(
        {{"job", one.job},
         {"task", one.task},
         {"person", one.person},
         {"work", std::string(trade::row_for(one.operation).key)},
         {"amount", one.amount},
         {"unit", one.unit},
         {"norm", one.norm.value()},
         {"worked", one.worked.value()},
         {"at", std::chrono::duration_cast<std::chrono::seconds>(one.at.time_since_epoch()).count()}});
  }
  return list;
}

std::optional<std::vector<works::TimedWork>> read_timed(std::string_view text) {
  const Json list = Json::parse(text, nullptr, false);
  if (!list.is_array()) return std::nullopt;
  std::vector<works::TimedWork> out;
  try {
    for (const Json& one : list) {
      const auto operation = trade::operation_from_key(one.at("work").get<std::string>());
      if (!operation) return std::nullopt;
      works::TimedWork made;
      one.at("job").get_to(made.job);
      one.at("task").get_to(made.task);
      one.at("person").get_to(made.person);
      made.operation = *operation;
      one.at("amount").get_to(made.amount);
      one.at("unit").get_to(made.unit);
      made.norm = base::Hours(one.at("norm").get<double>());
      made.worked = base::Hours(one.at("worked").get<double>());
      made.at = base::Instant(std::chrono::seconds(one.at("at").get<std::int64_t>()));
      out.push_back(std::move(made));
    }
  } catch (const Json::exception&) {
    return std::nullopt;
  }
  return out;
}

Json paces_json(std::span<const works::LearntPace> learnt) {
  Json list = Json::array();
  for (const works::LearntPace& one : learnt) {
    const trade::OperationRow& row = trade::row_for(one.operation);
    const works::PaceFigures figures = works::pace_figures(one);
    list.push_back({{"work", std::string(row.key)},
                    {"title", std::string(row.title)},
                    {"unit", std::string(row.unit)},
                    {"norm_an_hour", figures.norm},
                    {"an_hour", figures.own},
                    {"low", figures.low},
                    {"high", figures.high},
                    {"entries", one.entries},
                    {"jobs", one.jobs},
                    {"left_out", one.slips}});
  }
  return list;
}

}  // namespace weatherstruck::files
