#pragma once
// Job, list of work, weather and limits made into an engine network, with the way back from ids to names.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/engine/network.h"
#include "weatherstruck/programme/clocks.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// A way of an engine task in trade terms.
struct WayMeaning {
  std::string key;  ///< of the works::TaskWay; empty where the task has one way
  std::string title;
  bool under_canopy = false;
  int people = 1;
};

struct KeepMeaning {
  works::Name part;
  std::string title;
  bool concrete = false;
  base::SquareMetres area;
  std::vector<trade::CoverKind> ways;  ///< of Keep::ways
};

/// A network and what its ids stand for. Task i of the network is task i of the list.
struct Programme {
  engine::Network network;
  SlotTable table;
  std::vector<Cause> causes;
  std::vector<Recipe> recipes;                ///< of the network's clocks; empty: none is needed
  std::vector<std::vector<WayMeaning>> ways;  ///< [task][way]
  std::vector<KeepMeaning> keeps;
  std::vector<works::Name> canopy_places;  ///< of states 1..; by part as written
  std::vector<std::size_t> list_links;     ///< for each engine link: index in TaskList::links
  engine::ResourceId hands = 0;            ///< people at work
  std::optional<engine::TaskId> drive_out;
  std::optional<engine::TaskId> drive_home;
};

/// Hours of one drive with the rests that it needs.
[[nodiscard]] base::Hours drive_with_rests(base::Hours driving, const trade::LimitValues& limits);

/// @param now nothing starts before it
/// @param told whether its clocks say why they stand still
/// @throws std::invalid_argument where the weather holds nothing (see make_slots)
[[nodiscard]] Programme build_programme(const works::Job& job, const works::TaskList& list,
                                        const sky::Series& weather, const trade::LimitValues& limits,
                                        base::Instant now, const Plan* followed = nullptr,
                                        Causes told = Causes::told);

/// Makes the tables of a programme again, in place, for another weather of the same hours: slots, clocks,
/// where the canopy may stand. All else in it hangs on job and calendar. No clock has causes then: it is for
/// asking what would come of a plan in hundreds of possible weathers.
/// @param job and limits as the programme was built with
/// @throws std::invalid_argument where the weather holds nothing (see make_slots)
void put_weather(Programme& programme, const works::Job& job, const trade::LimitValues& limits,
                 const sky::Series& weather);
/// The same for some of its clocks; the others, and the canopy, stay as they are.
void put_weather(Programme& programme, const works::Job& job, const trade::LimitValues& limits,
                 const sky::Series& weather, const std::vector<engine::ClockId>& clocks);

}  // namespace weatherstruck::programme
