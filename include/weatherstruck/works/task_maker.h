#pragma once
// How the list of work is put together, chapter by chapter. For this floor only: others call derive_tasks().
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/works/carry.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/soil.h"
#include "weatherstruck/works/task_list.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {

/// Covers of walls hang down this far on each side: at least 2 ft in "Masonry and Concrete" p. 177 (read on
/// the page).
inline constexpr base::Metres cover_hang{0.6};
/// Covers of flat work lie this far beyond its edge: assumption.
inline constexpr base::Metres cover_beyond{0.15};

/// Adds tasks and links to one list, and knows what every chapter needs to know.
class TaskMaker {
 public:
  explicit TaskMaker(const Job& job);

  void arrive();                       ///< drive out, unload, set out, strip turf
  void brickwork(const Group& group);  ///< carry, dig, pour, lines, lay, point, top, fill
  void flight(const Steps& steps);
  void path(const Path& path);
  void extras();  ///< tasks written by hand
  void leave();   ///< surplus soil, clear up, load, drive home; joins all loose ends

  [[nodiscard]] TaskList take() { return std::move(list_); }
  [[nodiscard]] const Expansion& expansion() const { return expansion_; }

 private:
  /// Courses of a group laid in one task, all its walls together.
  struct Lift {
    std::vector<double> courses;  ///< bricks
    double bricks = 0;
    int first = 0;  ///< lowest course of the group is 1
    int last = 0;
  };

  /// Appends and fills in what follows from the operation's row and the part: hours, set-up, people, noise,
  /// importance. `hours` zero: by the norm for the amount.
  Task& add(Name name, trade::Operation operation, double amount, const Name& of, std::string title,
            std::string why);
  void link(const Name& from, const Name& to, std::string why, Wait wait = Wait::none);
  void carry_in(const Name& name, const Uses& uses, const Name& of, const std::string& what, std::string why,
                const Name& before_part_work);
  /// Where mixes are made at the kerb: the wheeling of each counts to the work that uses it.
  void wheel_mixes();
  void materials(Task& task, const Uses& uses) const;
  [[nodiscard]] Importance importance_of(const Name& part) const;
  [[nodiscard]] const Route& route() const { return job_.site.routes[route_]; }

  void foundations(const Group& group, const Name& of);
  void dig(const Name& name, const Name& part, const std::string& title,
           const std::vector<std::size_t>& footings, const Name& of);
  void pour(const Name& name, const Name& part, const std::string& title,
            const std::vector<std::size_t>& footings, const Name& of);
  void walls(const Group& group, const Name& of);
  [[nodiscard]] Lift below_of(const Group& group) const;
  [[nodiscard]] std::vector<Lift> lifts_of(const Group& group) const;
  void lay_below(const Group& group, const Name& of, const Lift& lift);
  void lay_lift(const Group& group, const Name& of, const Lift& lift, const Name& name, double share);
  void joints(const Group& group, const Name& lay, double share);
  void on_top(const Group& group, const Name& of, const Name& last_lay);
  void fill(const Group& group, const Name& of, const Name& first_lay, const Name& last_lay);
  [[nodiscard]] FreshWork fresh_wall(const Group& group, FreshWork::Kind kind, std::size_t courses) const;
  void dig_hours(Task& task, base::Metres deepest) const;
  void pour_by_hand(Task& task) const;
  /// Own work that shuts the chosen route comes after everything that is carried along it; what cannot be
  /// carried before goes by another route that is open, if there is one.
  void keep_route_open();
  /// Whether the way across that part cannot be used once this task has begun.
  [[nodiscard]] bool shuts(const Task& task, const Name& part) const;
  [[nodiscard]] std::set<Name> all_after(const Name& task) const;
  void go_round(const Name& carry, const std::set<Name>& shut_by);

  const Job& job_;
  Expansion expansion_;
  SoilAccount soil_;
  std::size_t route_ = 0;
  int early_courses_ = 0;  ///< most courses on a young strip
  int box_courses_ = 0;
  std::vector<Name> pours_;  ///< of the group in hand
  TaskList list_;
};

}  // namespace weatherstruck::works
