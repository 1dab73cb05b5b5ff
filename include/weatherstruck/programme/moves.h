#pragma once
// What moved between an earlier plan and the new one, and the fact that forced it.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// Why something moved. In the order in which one is believed where several fit.
enum class Fact {
  stood_down,      ///< by the site book, with its cause
  weather,         ///< a limit that the weather now passes at the old time
  stock,           ///< material is short by the count, or not there yet
  levels,          ///< the footing's levels as read changed courses or concrete
  took_longer,     ///< work before it took longer than planned
  not_done,        ///< what was planned is not done by the book
  finished_early,  ///< work before it was finished sooner
  room,            ///< the hours are taken by other work, or have come free
};

struct Move {
  enum class Kind { home, left_out, taken_in, later, earlier, other_way };
  Kind kind{};
  works::Name task;   ///< empty for home
  std::string title;  ///< without sizes; "Home"
  std::optional<base::Instant>
      from;                         ///< start of what is still to be done, by the earlier plan; home: arrival
  std::optional<base::Instant> to;  ///< by the new one; absent: no place
  bool other_day = false;           ///< by the site's date
  std::string way;                  ///< other way: the new one, in words
  Fact fact{};
  works::Name cause;  ///< the task at the bottom of it, or empty
  Span span;          ///< of the fact: the hours of rain, the hours it took; empty where it has none
  std::string text;   ///< the fact, a clause: "rain 2.1 mm/h, stops at 0.5, Tue 10 Feb 09:00 to 11:30"
  std::vector<works::Name> with;  ///< others of this kind by the same fact, in the order of importance
};

struct MoveRequest {
  const Plan& before;
  const Plan& after;
  const works::TaskList& list;                ///< that of `after`
  const base::Zone& zone;                     ///< of the site
  base::Instant now;                          ///< when `after` was made; work finished by then does not move
  const works::Progress* progress = nullptr;  ///< nullptr: no book; then `before` was followed until now
  std::size_t most = 5;                       ///< home not counted
};

/// Home first, where it moved by more than half an hour; then what is left out and musts first, what goes to
/// another day, what moves furthest. Work moves if its start does by more than half an hour or to another
/// day, if it is left out or taken in, or is done another way. One move for each kind and fact, the others
/// `with` it.
[[nodiscard]] std::vector<Move> moves_between(const MoveRequest& request);

}  // namespace weatherstruck::programme
