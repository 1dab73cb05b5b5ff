#pragma once
// The network at work on: people, canopy and stocks (build.cpp), tasks (build_tasks.cpp), fresh work and its
// covers (build_keeps.cpp), links and waits (build_links.cpp), what was done before now (build_history.cpp).
#include <cmath>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/programme/build.h"

namespace weatherstruck::programme {

using engine::Amount;
using engine::ClockId;
using engine::Tick;
using works::FreshWork;

inline std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

inline constexpr double kTicksPerHour = 12;

inline Tick ticks_up(double minutes) {
  return static_cast<Tick>(std::ceil(minutes / static_cast<double>(kTick.count())));
}
// Areas are held in tenths of a square metre.
inline int tenths(base::SquareMetres area, bool up) {
  return static_cast<int>(up ? std::ceil(area.value() * 10 - 1e-9) : std::floor(area.value() * 10 + 1e-9));
}

inline bool is_brickwork(FreshWork::Kind kind) {
  return kind == FreshWork::Kind::mortar_below || kind == FreshWork::Kind::mortar_facing ||
         kind == FreshWork::Kind::pointing || kind == FreshWork::Kind::plate_bed;
}

/// Work that goes on under the canopy while it rains.
[[nodiscard]] bool can_go_under_canopy(const works::Task& task);

class Builder {
 public:
  Builder(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
          const trade::LimitValues& limits, base::Instant now, const Plan* followed, Causes told);
  Programme build();

 private:
  [[nodiscard]] int crew() const;
  engine::ResourceId resource(std::string name, std::vector<int> capacity);
  [[nodiscard]] std::vector<int> always(int quantity) const;
  void people();
  void canopy();
  void stocks();
  void add_task(const works::Task& task);
  void drive(const works::Task& task, engine::TaskId id, engine::Task& made,
             std::vector<WayMeaning>& meanings);
  void add_way(const works::Task& task, const works::TaskWay& how, int people, bool under_canopy,
               engine::Task& made, std::vector<WayMeaning>& meanings);
  [[nodiscard]] double shared_by(int people, bool laying) const;
  static std::vector<Amount> course_breaks(const works::Task& task, Amount whole);
  Amount thumbprint(const FreshWork& fresh) const;
  static Amount reference(base::Hours hours);
  struct KeepKey {
    works::Name part;
    int group;  // 0 concrete, 1 brickwork, 2 flags
    friend bool operator<(const KeepKey& a, const KeepKey& b) {
      return a.part != b.part ? a.part < b.part : a.group < b.group;
    }
  };
  int group_of(const works::Name& part);
  static int care_group(FreshWork::Kind kind);
  void keeps();
  static bool on_strip(works::Wait wait);
  /// Whether it was new: a task touches a keep once.
  bool touch(const works::Name& task, const engine::Touch& made);
  void wall_over(const works::Name& task, engine::KeepId strip);
  void finish_keep(engine::KeepId id, int group);
  Amount frost_amount(engine::KeepId id, int group) const;
  void green_height(engine::KeepId id);
  void history();
  void excuse_the_past(engine::KeepId id);
  void add_past_runs(const PlannedTask& planned, engine::Task& task) const;
  void links();
  void nothing_after_home();
  void wait(const works::Link& link, const works::Task& from, engine::Link& made);

  const works::Job& job_;
  const works::TaskList& list_;
  const trade::LimitValues& limits_;
  const Plan* followed_;
  Causes told_;
  base::Instant now_;
  Programme out_;
  ClockMaker* clocks_ = nullptr;
  std::map<works::Name, engine::TaskId> index_;
  std::map<works::Name, int> groups_;
  std::map<engine::KeepId, std::vector<std::size_t>> laid_by_;
  std::map<engine::KeepId, std::vector<FreshWork::Kind>> kinds_of_;  // by layer
  engine::ResourceId hands_ = 0, bricklayers_ = 0, awake_ = 0, hessian_ = 0, sheet_ = 0, mats_ = 0;
};

}  // namespace weatherstruck::programme
