#pragma once
// How sure a plan is: followed through many weathers that may come of its forecast, with his pace as it may
// turn out. docs/chance.md says how, and what has not been shown of it.
#include <optional>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// The moments before which one, five and nine in ten fall.
struct Tenths {
  base::Instant one, five, nine;
  friend bool operator==(const Tenths&, const Tenths&) = default;
};

struct Outlook {
  int weathers = 0;            ///< followed through
  int home = 0;                ///< of them: home by the promised hour with all done that must be
  int home_and_sound = 0;      ///< and nothing of it spoilt
  int spoilt = 0;              ///< something spoilt, home or not
  int less = 0;                ///< home and sound, but without some work that the plan has
  std::optional<Tenths> back;  ///< home; absent where nine in ten never are within the forecast
  std::vector<std::optional<Tenths>> starts;  ///< for each task; absent where it is mostly left out
  /// What is late first where he is not home in time, and how often of those; the most frequent first.
  struct Decides {
    works::Name task;
    int times = 0;
    friend bool operator==(const Decides&, const Decides&) = default;
  };
  std::vector<Decides> decides;
  /// What is spoilt, by expanded part, and in how many weathers; the most frequent first.
  struct Spoilt {
    works::Name part;
    int times = 0;
    friend bool operator==(const Spoilt&, const Spoilt&) = default;
  };
  std::vector<Spoilt> spoils;
  /// Home and sound, by number of the weather, so that two outlooks of one seed can be set side by side. Not
  /// kept with a plan.
  std::vector<char> each;

  /// 0..1; 0 where no weather was followed. Of what all of some weathers bring, nobody is sure: by Laplace's
  /// rule of succession (k + 1) / (n + 2), the mean of what the chance may be if all chances were as likely
  /// before.
  [[nodiscard]] double chance() const;
  /// Standard error of the chance, from the number of weathers alone. Never zero: of the rule that adds two
  /// of each kind (Agresti & Coull 1998).
  [[nodiscard]] double sampling_error() const;
};

}  // namespace weatherstruck::programme
