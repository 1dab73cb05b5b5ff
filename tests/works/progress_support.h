#pragma once
// A list of work in round figures and the fold of entries on it, for the tests of progress.
#include <string>
#include <vector>

#include "weatherstruck/works/progress.h"
#include "works/book_support.h"

namespace weatherstruck::works {

/// Round figures by hand: 100 bricks in four courses of 25, with 105 to draw; 2 m3 to dig; the pointing only
/// if the joints were raked.
inline TaskList small_list() {
  const auto task = [](const char* name, const char* title, trade::Operation operation, double amount,
                       const char* unit) {
    Task made;
    made.name = name;
    made.title = title;
    made.part = "bed";
    made.of = "bed";
    made.operation = operation;
    made.amount = amount;
    made.unit = unit;
    return made;
  };
  TaskList list;
  list.tasks.push_back(task("dig", "Dig the trench (2 m3)", trade::Operation::dig, 2, "m3"));
  Task lay = task("lay", "Lay courses 1 to 4 (100 bricks)", trade::Operation::lay_facing, 100, "bricks");
  lay.courses = {25, 25, 25, 25};
  lay.materials = {{"facing-brick", 105}, {"cement", 50}};
  lay.ways = {{"strike", "", base::Hours(2)}, {"rake", "", base::Hours(2)}};
  list.tasks.push_back(lay);
  Task point = task("point", "Point it (2 m2)", trade::Operation::point, 2, "m2");
  point.only_if = OnlyIf{"lay", "rake"};
  point.materials = {{"cement", 10}};
  list.tasks.push_back(point);
  list.links = {{"dig", "lay", Link::Kind::finish_start, Wait::none, base::Hours(0), "no trench, no wall"},
                {"lay", "point", Link::Kind::finish_start, Wait::none, base::Hours(0), "no joints yet"}};
  return list;
}

inline Progress fold(const std::vector<Entry>& entries, base::Instant now = feb(12, 20)) {
  static const Job job = demo_job();
  static const TaskList list = small_list();
  return progress_of(job, list, book_of(entries), now);
}

inline std::vector<std::string> codes_of(const Progress& progress) {
  std::vector<std::string> codes;
  for (const Remark& remark : progress.remarks)
    codes.push_back(remark.code);
  return codes;
}

inline const TaskProgress& state_of(const Progress& progress, const Name& task) {
  return *progress.find(task);
}

}  // namespace weatherstruck::works
