#pragma once
// The list of work that a job comes to: tasks in trade words with amounts, hours and materials, links with
// their waits, and the reason for each. No weather, no dates: who does it when is decided two floors up.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/heat.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// What a task leaves behind that must be looked after: covered, kept from frost, not loaded.
struct FreshWork {
  enum class Kind {
    concrete,       ///< a strip in its trench, or a slab
    mortar_below,   ///< joints in engineering or common brick that will not be seen
    mortar_facing,  ///< joints that will be seen
    pointing,       ///< raked joints pointed
    plate_bed,      ///< mortar under plates or copings
    flags,          ///< flags on a mortar bed
    grout           ///< joints of flags
  };
  Kind kind = Kind::concrete;
  base::SquareMetres cover;  ///< hessian, sheet or mat that covers all of it when finished, overhang included
  base::Metres course_height{0};  ///< wet wall added by one course; zero where it is not laid in courses
  base::Metres top_width{0};      ///< width of what lies open to the sky
  trade::MortarClass mortar = trade::MortarClass::m4;  ///< mortar work only; its binder is the job's
  bool quick_suction = true;  ///< mortar work only: bricks that draw the water out of the joint
  /// Concrete only: how it lies in the ground, thinnest, narrowest and shallowest where they differ.
  std::optional<matter::StripShape> strip{};
};

/// Hours at 20 degrees, dry and still, until its joints are thumbprint hard; of mortar work.
[[nodiscard]] matter::HourRange thumbprint_hours(const FreshWork& fresh, const Practice& practice);
/// Amount on the frost clock of mortar until it withstands one freeze; of mortar work.
[[nodiscard]] base::Hours frost_safe_amount(const FreshWork& fresh, const Practice& practice);

/// One of several ways to do a task. The chosen key decides which optional tasks are there.
struct TaskWay {
  std::string key;    ///< "strike" or "rake"
  std::string title;  ///< "joints struck as the work goes on"
  base::Hours hours;  ///< as of the task
};

/// The task exists only if task `task` goes by way `way`.
struct OnlyIf {
  Name task;
  std::string way;
};

struct MaterialDraw {
  std::string material;  ///< key of the materials table
  double amount = 0;     ///< net with the job's waste, in the table's unit
};

/// One kind of work on one part.
struct Task {
  Name name;          ///< "shelter-north-lay", unique in the job
  std::string title;  ///< for people: "Pour the north footing of the shelter (0.31 m3, 4 mixes)"
  Name part;          ///< the expanded part it is on; empty for work on the whole site
  Name of;            ///< the part as written in the job; empty likewise
  trade::Operation operation = trade::Operation::other;
  double amount = 0;  ///< in `unit`
  std::string unit;   ///< "m3", "bricks", "m", "m2", "flags", "h", ...
  /// Person-hours at pace 1 for the whole amount, set-up not counted; first way. By the norm, times what is
  /// known of his own pace.
  base::Hours hours;
  base::Hours set_up;  ///< person-hours at each start or restart
  std::vector<double>
      courses;     ///< amount of each course from the lowest; sums to `amount`; empty: not in courses
  int people = 1;  ///< least number at work together
  std::vector<TaskWay> ways;  ///< empty: one way only; otherwise the first is the usual one
  std::optional<OnlyIf> only_if;
  std::vector<MaterialDraw> materials;
  Importance importance = Importance::must;
  bool noisy = false;      ///< mixer or disc cutter runs during it
  base::Metres length{0};  ///< ground it stretches over, for the canopy; zero: nowhere in particular
  std::optional<FreshWork> fresh;
  bool outdoors = true;  ///< false: the weather at the work does not touch it (driving, fetching)
  std::string why;       ///< the reason it exists, a sentence
  std::optional<trade::OwnPace> own_pace{};  ///< in `hours` already; nullopt: the norm's
};

/// What must go by, on its own clock, before the later task of a link.
enum class Wait {
  none,
  concrete_to_lay,       ///< a strip until it may be built on
  concrete_to_lay_box,   ///< likewise under a box of up to four courses on a stiff mix
  concrete_to_lay_high,  ///< likewise under a wall of more than eight courses
  mortar_to_fill_half,   ///< loose soil to half height
  mortar_to_fill,        ///< and to the top
  mortar_to_point,       ///< raked joints until they can be pointed
  plate_to_strap,        ///< bed under a plate until the straps may pull on it
  bed_to_grout,          ///< flags bedded until they are grouted
  hours                  ///< `Link::hours` by the wall clock
};

/// `to` may not start before `from` has finished (or started) and the wait has gone by. A link of a task that
/// is not there (its way was not chosen, or it was dropped) binds nothing; links round it are in the list
/// too.
struct Link {
  enum class Kind { finish_start, start_start, finish_finish };
  Name from;
  Name to;
  Kind kind = Kind::finish_start;
  Wait wait = Wait::none;
  base::Hours hours{0};  ///< for Wait::hours only
  std::string why;       ///< a sentence
};

struct TaskList {
  std::vector<Task> tasks;  ///< in the order a mason would name them; every `from`..`to` runs forward
  std::vector<Link> links;

  /// nullptr where there is none of that name.
  [[nodiscard]] const Task* find(const Name& name) const;
  /// Person-hours at pace 1 with one set-up each, optional tasks of the first way only; without driving.
  [[nodiscard]] base::Hours total_hours() const;
};

/// Every task and link that the job implies. The job has passed check(); otherwise std::invalid_argument.
[[nodiscard]] TaskList derive_tasks(const Job& job);

}  // namespace weatherstruck::works
